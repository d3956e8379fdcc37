/** Four words of help on a sheet that is still empty. */
import type { JSX } from "react";
import { pxOfMm, type Rect } from "../sheet/transform.ts";

const words = [
  ["Place", "a pond, a filter vessel beside it and a pump in the pond: press a stencil, then the sheet."],
  ["Pull", "a pipe from the pump to the vessel, and one from the vessel back to the pond."],
  ["Drag", "whatever does not fit. Press it to type its exact size or level."],
  ["Read", "the title block. What is left to look at comes with a remedy that you can press."],
] as const;

export function EmptyHelp({ drawing }: { readonly drawing: Rect }): JSX.Element {
  return (
    <div className="help" style={{ left: pxOfMm(drawing.x), top: pxOfMm(drawing.y) + 40 }}>
      <dl>
        {words.map(([word, does]) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
      <p>Or press New: five answers draw a layout to change from.</p>
    </div>
  );
}
