/** The drawing as it is beside what it was at any step, or in the file: what was changed, and what came of it. */
import { type JSX, useMemo, useState } from "react";
import {
  type Assessment,
  type ComparedQuantity,
  type FigureChange,
  figureChanges,
  type PartId,
  type Section,
  siteOf,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { sentencesOf } from "../../sheet/sentence.ts";
import { formatMoney, type UnitSystem } from "../../sheet/units.ts";
import { goToStep, stepLabels } from "../../state/history.ts";
import type { Job } from "../../worker/jobs.ts";
import { ChoiceField } from "../ChoiceField.tsx";
import { showMargin, showQuantity } from "../quantity.ts";
import { useDesk } from "../useDesk.ts";
import { changesInWords } from "./changesInWords.ts";
import { StatePicture } from "./StatePicture.tsx";
import { useJob } from "./useJob.ts";

export interface CompareSlipProps {
  readonly section: Section;
  readonly assessment: Assessment | null;
}

export function CompareSlip({ section, assessment }: CompareSlipProps): JSX.Element {
  const units = useDesk((state) => state.view.units);
  const { currency } = siteOf(section);
  const history = useDesk((state) => state.history);
  const saved = useDesk((state) => state.saved);
  const [wanted, setWanted] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  const here = history.done.length;
  const labels = stepLabels(history).map(sentencesOf(section, units));
  const options = [
    ...(saved && saved !== section ? [["saved", "as the file has it"] as const] : []),
    ["0", here === 0 ? "as it was opened, which is now" : "as it was opened"] as const,
    ...labels.map(
      (label, k) => [String(k + 1), `${k + 1}. ${label}${k + 1 === here ? ", which is now" : ""}`] as const,
    ),
  ];
  const usual = String(Math.max(0, here - 1));
  const key = options.some(([option]) => option === wanted) ? (wanted as string) : usual;
  const other = useMemo(
    () => (key === "saved" && saved ? saved : goToStep(section, history, Number(key)).section),
    [key, saved, section, history],
  );
  const job = useMemo((): Job => ({ kind: "assess", section: other }), [other]);
  const { answers, state, why, stop } = useJob(job);
  const before = answers.flatMap((answer) => (answer.kind === "assessment" ? [answer.assessment] : []))[0];
  const fields = useMemo(() => changesInWords(other, section, units), [other, section, units]);
  const figures = useMemo(() => (before && assessment ? figureChanges(before, assessment) : []), [before, assessment]);
  // What reads the same is the same to the reader.
  const differs = ({ quantity, was, now }: FigureChange): boolean =>
    textOf(quantity, was, units, currency) !== textOf(quantity, now, units, currency);
  const shown = figures.filter((figure) => all || differs(figure));
  const called = (id: PartId | null): string => {
    const part = id === null ? undefined : (section.parts.get(id) ?? other.parts.get(id));
    return part ? partName(part) : "the drawing";
  };
  return (
    <>
      <div className="choose">
        <ChoiceField label="Compare with" value={key} options={options} choose={setWanted} />
        <ChoiceField
          label="Figures"
          value={all ? "all" : "changed"}
          options={[
            ["changed", "those that differ"],
            ["all", "all that decide"],
          ]}
          choose={(next) => setAll(next === "all")}
        />
      </div>
      {state === "running" ? (
        <div className="acts" aria-live="polite">
          <span>The other state is being solved.</span>
          <button type="button" className="word" onClick={stop}>
            Stop
          </button>
        </div>
      ) : null}
      {state === "broken" ? <p className="trouble">That did not work: {why}.</p> : null}
      {fields.length > 0 ? (
        <div className="two-states">
          <StatePicture title="then" section={other} running={before?.running ?? null} />
          <StatePicture title="now" section={section} running={assessment?.running ?? null} />
        </div>
      ) : null}
      <h3>What was changed</h3>
      {fields.length === 0 ? (
        <p>Nothing: the two are one and the same.</p>
      ) : (
        <div className="scroll">
          <table className="grid-table">
            <caption className="hidden">Fields that differ between the two states</caption>
            <thead>
              <tr>
                <th scope="col">part</th>
                <th scope="col">field</th>
                <th scope="col" className="figure">
                  then
                </th>
                <th scope="col" className="figure">
                  now
                </th>
              </tr>
            </thead>
            <tbody>
              {fields.map(({ part, name, field, was, now }) => (
                <tr key={`${part} ${field}`}>
                  <th scope="row">{name}</th>
                  <td>{field}</td>
                  <td className="figure">{was}</td>
                  <td className="figure">{now}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {before && assessment ? (
        <>
          <h3>What came of it</h3>
          {shown.length === 0 ? (
            <p>No figure that decides is another.</p>
          ) : (
            <div className="scroll">
              <table className="grid-table">
                <caption className="hidden">Figures of the two states side by side</caption>
                <thead>
                  <tr>
                    <th scope="col">part</th>
                    <th scope="col">figure</th>
                    <th scope="col" className="figure">
                      then
                    </th>
                    <th scope="col" className="figure">
                      now
                    </th>
                    <th scope="col" className="figure">
                      difference
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {shown.map((figure) => (
                    <tr key={`${figure.part} ${figure.what}`} className={differs(figure) ? "" : "same"}>
                      <th scope="row">{called(figure.part)}</th>
                      <td>{figure.what}</td>
                      <td className="figure">{textOf(figure.quantity, figure.was, units, currency)}</td>
                      <td className="figure">{textOf(figure.quantity, figure.now, units, currency)}</td>
                      <td className="figure">{differs(figure) ? differenceOf(figure, units, currency) : ""}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          )}
        </>
      ) : null}
    </>
  );
}

function textOf(
  quantity: ComparedQuantity,
  value: number | string | null,
  units: UnitSystem,
  currency: string,
): string {
  if (value === null) return "—";
  if (typeof value === "string") return value;
  switch (quantity) {
    case "margin":
      return showMargin(value);
    case "money":
      return formatMoney(value, currency);
    case "count":
    case "word":
      return String(value);
    default:
      return showQuantity(quantity, value, units);
  }
}

function differenceOf({ quantity, was, now }: FigureChange, units: UnitSystem, currency: string): string {
  if (typeof was !== "number" || typeof now !== "number") return "";
  const by = now - was;
  if (by === 0) return "";
  // A difference of levels is a length, with its sign.
  const text = textOf(quantity === "level" ? "head" : quantity, Math.abs(by), units, currency);
  return `${by > 0 ? "+" : "−"}${text}`;
}
