import type { JSX } from "react";
import { keyHelp } from "../keyHelp.ts";
import { wholeFigures } from "../wholeFigures.tsx";

export function KeysSlip(): JSX.Element {
  return (
    <dl className="keys">
      {keyHelp.map(([keys, does]) => [
        <dt key={`k ${keys}`}>{keys}</dt>,
        <dd key={`d ${keys}`}>{wholeFigures(does)}</dd>,
      ])}
    </dl>
  );
}
