/** Habits of the trade beside what this drawing has. */
import { type JSX, useMemo } from "react";
import { type Assessment, type Rule, rulesOfThumb, type Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { sentenceIn } from "../../sheet/sentence.ts";
import type { UnitSystem } from "../../sheet/units.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import { wholeFigures } from "../wholeFigures.tsx";
import { ruleFigure, ruleText, timesSign } from "./shownAs.ts";

export interface RulesSlipProps {
  readonly section: Section;
  readonly assessment: Assessment | null;
}

export function RulesSlip({ section, assessment }: RulesSlipProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const rules = useMemo(() => (assessment ? rulesOfThumb(section, assessment) : null), [section, assessment]);
  if (!rules) return <p>Being solved.</p>;
  const show = (rule: Rule): JSX.Element | string => {
    const part = rule.part === null ? undefined : section.parts.get(rule.part);
    if (!part) return "the drawing";
    return (
      <button
        type="button"
        className="word"
        onClick={() => desk.look((view) => ({ ...view, selection: new Set([part.id]), slip: null }))}
      >
        <b>{partName(part)}</b>
      </button>
    );
  };
  return (
    <>
      <p className="hint">
        Habits, not laws: sources differ by factors, and a drawing that departs from one may be right. The figures that
        decide are on the sheet itself.
      </p>
      <div className="acts">
        <button type="button" className="press" onClick={() => desk.look((view) => ({ ...view, slip: "size" }))}>
          Size a pond from the start
        </button>
      </div>
      {rules.length === 0 ? (
        <p>Nothing to compare: there is no running state, or no part that a rule speaks of.</p>
      ) : (
        <div className="scroll">
          <table className="grid-table rules">
            <caption className="hidden">Rules of thumb, what this drawing has, and where each rule comes from</caption>
            <thead>
              <tr>
                <th scope="col">rule</th>
                <th scope="col">of</th>
                <th scope="col">wanted</th>
                <th scope="col">here</th>
                <th scope="col">from where</th>
              </tr>
            </thead>
            <tbody>
              {rules.map((rule) => (
                <tr key={`${rule.code} ${rule.part ?? ""}`}>
                  <th scope="row">{wholeFigures(rule.rule)}</th>
                  <td>{show(rule)}</td>
                  <td>{wholeFigures(spanText(rule, units))}</td>
                  <td className={rule.met === null ? "" : rule.met ? "met" : "unmet"}>
                    {rule.has === null ? "—" : wholeFigures(ruleFigure({ ...rule, has: rule.has }, units))}
                    {rule.met === null ? "" : rule.met ? ", within" : ", outside"}
                  </td>
                  <td>
                    {wholeFigures(rule.source)}
                    <div className="hint">{wholeFigures(sentenceIn(rule.where, units, []))}</div>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}

function spanText(rule: Rule, units: UnitSystem): string {
  const { quantity, least, most, code } = rule;
  const text = (value: number): string => `${ruleText(quantity, value, units)}${timesSign(rule)}`;
  if (quantity === "yesNo") return "yes";
  if (code === "outlet-larger") return `over 1${timesSign(rule)}`;
  if (code === "vent-tee") return "above it";
  if (least !== null && most !== null) return `${text(least)} to ${text(most)}`;
  return least !== null ? `at least ${text(least)}` : most !== null ? `at most ${text(most)}` : "";
}
