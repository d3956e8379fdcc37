/** Every part as a stop for the Tab key: coming to one chooses it, Enter goes into its slip, arrows move it. In the slip
 * the readings come first: its paper takes the focus, Tab goes on to the fields. */
import type { JSX } from "react";
import type { Assessment, Section } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { inOrder } from "../state/inOrder.ts";
import { kindWords } from "./PartSlip.tsx";
import { readingsOf } from "./readings/readingsOf.ts";
import { useDesk, useProgram } from "./useDesk.ts";

export function PartList({
  section,
  assessment,
}: {
  readonly section: Section;
  readonly assessment: Assessment | null;
}): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const selection = useDesk((state) => state.view.selection);
  return (
    <ul className="part-list" aria-label="Parts on the sheet">
      {inOrder(section).map((part) => {
        const { aside, lines } = readingsOf(section, assessment, part, units);
        const words = [kindWords[part.kind], aside, ...lines.slice(0, 2).map(({ label, value }) => `${label} ${value}`)]
          .filter(Boolean)
          .join(", ");
        return (
          <li key={part.id}>
            <button
              type="button"
              aria-label={`${partName(part)}: ${words}`}
              aria-pressed={selection.has(part.id)}
              onFocus={(event) => {
                // A press of the pointer on the sheet chooses by itself.
                if (event.target.matches(":focus-visible")) desk.choose([part.id]);
              }}
              onClick={() => document.querySelector<HTMLElement>("#slip .paper")?.focus()}
            />
          </li>
        );
      })}
    </ul>
  );
}
