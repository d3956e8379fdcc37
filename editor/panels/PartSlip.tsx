/** The slip of what is chosen: its readings, then its fields. */
import type { JSX, MouseEvent } from "react";
import {
  type Assessment,
  type Finding,
  kindWords as kindsInReports,
  type Mend,
  type Part,
  type PartKind,
  type PipeReading,
  type Section,
  type VesselReading,
  workedOf,
} from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { alignParts } from "../state/actions/alignParts.ts";
import { duplicateParts } from "../state/actions/copyParts.ts";
import { removeParts } from "../state/actions/removeParts.ts";
import { DutyPlot } from "./DutyPlot.tsx";
import { FieldLine } from "./FieldLine.tsx";
import { FindingList } from "./FindingList.tsx";
import { fieldsOf } from "./fields/index.ts";
import { onToNextStop } from "./menu/onToNextStop.ts";
import { readingsOf } from "./readings/readingsOf.ts";
import { useDesk, useProgram } from "./useDesk.ts";
import { wholeFigures } from "./wholeFigures.tsx";
import { LevelsPlot } from "./why/LevelsPlot.tsx";
import { ReturnPlot } from "./why/ReturnPlot.tsx";
import { WorkedList } from "./why/WorkedList.tsx";

export const kindWords: Readonly<Record<PartKind, string>> = { ...kindsInReports, vent: "breather" };

export interface PartSlipProps {
  readonly section: Section;
  readonly parts: readonly Part[];
  readonly assessment: Assessment | null;
  readonly mendsOf: (finding: Finding) => readonly Mend[] | null;
}

export function PartSlip({ section, parts, assessment, mendsOf }: PartSlipProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const first = parts[0] as Part;
  const single = parts.length === 1;
  const oneKind = parts.every((part) => part.kind === first.kind);
  const readings = single ? readingsOf(section, assessment, first, units) : null;
  const running = assessment?.running.converged ? assessment.running : null;
  const ids = new Set(parts.map((part) => part.id));
  const findings = assessment?.findings.filter((finding) => single && finding.parts.includes(first.id)) ?? [];
  const duplicate = (): void => {
    const { changed, ids: fresh } = duplicateParts(section, ids);
    if (desk.apply(changed) && changed.ok) desk.choose(fresh);
  };
  const remove = (press: MouseEvent): void => {
    const takeAway = (): void => void desk.apply(removeParts(section, ids));
    // A key that presses the word tells no count of clicks: a hand on the keyboard goes on from part to part.
    if (press.detail === 0) onToNextStop(desk, takeAway);
    else takeAway();
  };
  return (
    <>
      <header>
        <h2>{single ? partName(first) : `${parts.length} parts`}</h2>
        <span className="aside">{wholeFigures(readings?.aside ?? "") || (single ? kindWords[first.kind] : "")}</span>
        <button type="button" className="close" aria-label="Put the slip away" onClick={() => desk.choose([])} />
      </header>
      <section className="paper" tabIndex={-1} aria-label="Readings and fields">
        {readings && readings.lines.length > 0 ? (
          <dl className="readings">
            {readings.lines.map((reading) => [
              <dt key={`t ${reading.label}`}>{wholeFigures(reading.label)}</dt>,
              <dd key={`d ${reading.label}`}>{wholeFigures(reading.value)}</dd>,
            ])}
          </dl>
        ) : null}
        {findings.length > 0 ? <FindingList findings={findings} section={section} mendsOf={mendsOf} /> : null}
        {single && first.kind === "pump" ? (
          <>
            <DutyPlot section={section} pump={first} running={assessment?.running ?? null} />
            <p>
              <button
                type="button"
                className="word"
                onClick={() => desk.look((view) => ({ ...view, slip: "duty", about: first.id }))}
              >
                Keep this plot open while you pull the sheet about
              </button>
            </p>
          </>
        ) : null}
        {single && running && first.kind === "pipe" && running.pipes.has(first.id) ? (
          <LevelsPlot reading={running.pipes.get(first.id) as PipeReading} />
        ) : null}
        {single && running && first.kind === "vessel" && running.vessels.has(first.id) ? (
          <ReturnPlot section={section} vessel={first} reading={running.vessels.get(first.id) as VesselReading} />
        ) : null}
        {single && running ? <WorkedList worked={workedOf(section, first, running)} /> : null}
        {readings?.notes.map((note) => (
          <p className="formula" key={note}>
            {wholeFigures(note)}
          </p>
        ))}
        <div className="fields">
          {oneKind ? (
            fieldsOf[first.kind].map((field) =>
              field.kind === "text" && !single ? null : (
                <FieldLine
                  key={`${ids.size} ${first.id} ${field.kind} ${field.label} ${"which" in field ? field.which : ""}`}
                  field={field}
                  parts={parts}
                  section={section}
                />
              ),
            )
          ) : (
            <p className="hint">Parts of one kind can be changed together.</p>
          )}
        </div>
        <footer>
          {parts.length > 1 ? (
            <>
              <button type="button" className="word" onClick={() => desk.apply(alignParts(section, ids, "top"))}>
                Align tops
              </button>
              <button type="button" className="word" onClick={() => desk.apply(alignParts(section, ids, "bottom"))}>
                Align bottoms
              </button>
              <button type="button" className="word" onClick={() => desk.apply(alignParts(section, ids, "left"))}>
                Align left edges
              </button>
              <button type="button" className="word" onClick={() => desk.apply(alignParts(section, ids, "right"))}>
                Align right edges
              </button>
            </>
          ) : null}
          {single && first.kind !== "note" ? (
            <button
              type="button"
              className="word"
              onClick={() => desk.look((view) => ({ ...view, slip: "whatIf", about: first.id }))}
            >
              What if
            </button>
          ) : null}
          <button type="button" className="word" onClick={duplicate}>
            Duplicate
          </button>
          <button type="button" className="word" onClick={remove}>
            Remove
          </button>
        </footer>
      </section>
    </>
  );
}
