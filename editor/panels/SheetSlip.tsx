/** Slips that belong to the sheet as a whole: findings, parts and readings, faults, steps, keys, the drawing. */
import type { JSX } from "react";
import type { View } from "../state/view.ts";
import "./gridTables.css";
import "./PlayedChoice.css";
import { BeginSlip } from "./begin/BeginSlip.tsx";
import { DrawingsSlip } from "./drawings/DrawingsSlip.tsx";
import { GalleryLater } from "./GalleryLater.tsx";
import { HandOutSlip } from "./HandOut.tsx";
import { DrawingSlip } from "./sheetSlips/DrawingSlip.tsx";
import { FaultsSlip } from "./sheetSlips/FaultsSlip.tsx";
import { FindingsSlip } from "./sheetSlips/FindingsSlip.tsx";
import { KeysSlip } from "./sheetSlips/KeysSlip.tsx";
import { PartsSlip } from "./sheetSlips/PartsSlip.tsx";
import { StepsSlip } from "./sheetSlips/StepsSlip.tsx";
import type { SheetSlipProps } from "./sheetSlips/sheetSlip.ts";
import { useProgram } from "./useDesk.ts";
import { useFocusBack } from "./useFocusBack.ts";
import { WhySlip } from "./why/WhySlip.tsx";

const titles: Record<NonNullable<View["slip"]>, string> = {
  keys: "Keys and hands",
  findings: "What to look at",
  table: "Parts and readings",
  steps: "Steps",
  drawing: "This drawing",
  faults: "If one thing fails",
  drawings: "Drawings",
  begin: "A new drawing",
  handOut: "Hand out",
  gallery: "Samples",
  rules: "Rules of thumb",
  size: "From a pond to a drawing",
  whatIf: "What if",
  compare: "Two states side by side",
  buy: "What to buy",
  duty: "Pump and system",
};

const bodies: Record<NonNullable<View["slip"]>, (props: SheetSlipProps) => JSX.Element> = {
  keys: KeysSlip,
  findings: FindingsSlip,
  table: PartsSlip,
  steps: StepsSlip,
  drawing: DrawingSlip,
  faults: FaultsSlip,
  drawings: DrawingsSlip,
  begin: BeginSlip,
  handOut: HandOutSlip,
  gallery: GalleryLater,
  rules: WhySlip,
  size: WhySlip,
  whatIf: WhySlip,
  compare: WhySlip,
  buy: WhySlip,
  duty: WhySlip,
};

export function SheetSlip(props: SheetSlipProps): JSX.Element {
  const { desk } = useProgram();
  const Body = bodies[props.which];
  useFocusBack();
  return (
    <>
      <header>
        <h2>{titles[props.which]}</h2>
        <span className="aside" />
        <button
          type="button"
          className="close"
          aria-label="Put the slip away"
          onClick={() => desk.look((view) => ({ ...view, slip: null }))}
        />
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard */}
      <div className="paper" tabIndex={0}>
        <Body {...props} />
      </div>
    </>
  );
}
