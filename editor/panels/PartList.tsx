/** Every part as a stop for the Tab key: coming to one chooses it, Enter goes into its slip, arrows move it. In the slip
 * the readings come first: its paper takes the focus, Tab goes on to the fields. Shift and Space, as Shift and a press
 * of the pointer, gather several: from then on coming to a stop chooses nothing. */
import type { JSX, KeyboardEvent } from "react";
import type { Assessment, PartId, Section } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { inOrder } from "../state/inOrder.ts";
import { comeToStop, gather, isGathering, leaveStops } from "../state/view.ts";
import { kindWords } from "./PartSlip.tsx";
import { readingsOf } from "./readings/readingsOf.ts";
import { useDesk, useProgram } from "./useDesk.ts";

export function PartList({
  section,
  assessment,
  bringIntoSight,
}: {
  readonly section: Section;
  readonly assessment: Assessment | null;
  readonly bringIntoSight: (id: PartId) => void;
}): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const selection = useDesk((state) => state.view.selection);
  const gathering = useDesk((state) => isGathering(state.view));
  const gatherBy = (event: KeyboardEvent, id: PartId): void => {
    if (!((event.key === " " || event.key === "Enter") && isWithMore(event))) return;
    event.preventDefault();
    event.stopPropagation();
    if (!event.repeat) desk.look((view) => gather(view, id));
  };
  return (
    <>
      <ul
        className="part-list"
        aria-label="Parts on the sheet, Shift Space chooses several"
        onBlur={(event) => {
          if (!event.currentTarget.contains(event.relatedTarget)) desk.look(leaveStops);
        }}
      >
        {inOrder(section).map((part) => {
          const { aside, lines } = readingsOf(section, assessment, part, units);
          const words = [
            kindWords[part.kind],
            aside,
            ...lines.slice(0, 2).map(({ label, value }) => `${label} ${value}`),
          ]
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
                  if (!event.target.matches(":focus-visible")) return;
                  desk.look((view) => comeToStop(view, part.id));
                  bringIntoSight(part.id);
                }}
                onKeyDown={(event) => gatherBy(event, part.id)}
                onClick={(event) => {
                  // Some browsers press a button when the space bar comes up, whatever was done when it went down.
                  if (!isWithMore(event)) document.querySelector<HTMLElement>("#slip .paper")?.focus();
                }}
              />
            </li>
          );
        })}
      </ul>
      <p className="hidden" aria-live="polite">
        {gathering ? gatheredWords(section, selection) : ""}
      </p>
    </>
  );
}

const isWithMore = (event: { readonly shiftKey: boolean; readonly ctrlKey: boolean; readonly metaKey: boolean }) =>
  event.shiftKey || event.ctrlKey || event.metaKey;

function gatheredWords(section: Section, selection: ReadonlySet<PartId>): string {
  const [first] = selection;
  const part = first === undefined ? undefined : section.parts.get(first);
  if (!part || selection.size > 1) return `${selection.size} parts are chosen.`;
  return `${partName(part)} stays chosen. Shift Space takes others in or out, Escape ends it.`;
}
