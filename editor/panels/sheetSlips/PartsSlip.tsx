/** The parts and what they read, for screen readers and for who would rather read. */
import { Fragment, type JSX } from "react";
import { partName } from "../../sheet/partName.ts";
import { inOrder } from "../../state/inOrder.ts";
import { kindWords } from "../PartSlip.tsx";
import { readingsOf } from "../readings/readingsOf.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import { wholeFigures } from "../wholeFigures.tsx";
import type { SheetSlipProps } from "./sheetSlip.ts";

export function PartsSlip({ section, assessment }: SheetSlipProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  return (
    <table className="grid-table parts">
      <caption className="hidden">Parts of the drawing with what they read</caption>
      <thead>
        <tr>
          <th scope="col">part</th>
          <th scope="col">kind</th>
          <th scope="col">readings</th>
        </tr>
      </thead>
      <tbody>
        {inOrder(section).map((part) => {
          const readings = readingsOf(section, assessment, part, units);
          return (
            <tr key={part.id} data-part={part.id}>
              <th scope="row">
                <button
                  type="button"
                  className="word"
                  onClick={() => desk.look((view) => ({ ...view, selection: new Set([part.id]), slip: null }))}
                >
                  <b>{partName(part)}</b>
                </button>
              </th>
              <td>{kindWords[part.kind]}</td>
              <td>
                {part.kind === "note" ? part.text : wholeFigures(readings.aside)}
                {readings.lines.map(({ label, value }, k) => (
                  <Fragment key={label}>
                    {k > 0 || readings.aside ? " · " : ""}
                    {wholeFigures(label)} <b>{wholeFigures(value)}</b>
                  </Fragment>
                ))}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
