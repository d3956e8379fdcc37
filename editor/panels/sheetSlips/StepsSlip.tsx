import type { JSX } from "react";
import { sentencesOf } from "../../sheet/sentence.ts";
import { stepLabels } from "../../state/history.ts";
import { useDesk, useProgram } from "../useDesk.ts";

export function StepsSlip(): JSX.Element {
  const { desk } = useProgram();
  const history = useDesk((state) => state.history);
  const section = useDesk((state) => state.section);
  const units = useDesk((state) => state.view.units);
  // A remedy's step is called by what it did, figures and all.
  const labels = stepLabels(history).map(sentencesOf(section, units));
  return (
    <ol>
      {labels.length > 0 ? (
        <li>
          <button type="button" className="word" onClick={() => desk.look((view) => ({ ...view, slip: "compare" }))}>
            Compare one of these with the drawing as it is now
          </button>
        </li>
      ) : null}
      <li>
        <button
          type="button"
          className="word"
          aria-current={history.done.length === 0 ? "step" : undefined}
          onClick={() => desk.goToStep(0)}
        >
          {history.done.length === 0 ? <b>As it was opened</b> : "As it was opened"}
        </button>
      </li>
      {labels.map((label, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place in the list
        <li key={i}>
          <button
            type="button"
            className="word"
            aria-current={i + 1 === history.done.length ? "step" : undefined}
            onClick={() => desk.goToStep(i + 1)}
          >
            {i + 1 === history.done.length ? <b>{label}</b> : label}
            {i + 1 > history.done.length ? ", taken back" : ""}
          </button>
        </li>
      ))}
    </ol>
  );
}
