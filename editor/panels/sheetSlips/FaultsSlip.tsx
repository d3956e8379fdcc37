import { type JSX, useSyncExternalStore } from "react";
import type { FaultResult } from "../../../hydraulics/index.ts";
import { sentencesOf } from "../../sheet/sentence.ts";
import { type Played, play } from "../../state/view.ts";
import { showQuantity } from "../quantity.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import { useReducedMotion } from "../useReducedMotion.ts";
import { wholeFigures } from "../wholeFigures.tsx";
import type { SheetSlipProps } from "./sheetSlip.ts";

export function FaultsSlip({ section, assessment }: SheetSlipProps): JSX.Element {
  const units = useDesk((state) => state.view.units);
  const { desk, results } = useProgram();
  const latest = useSyncExternalStore(results.subscribe, results.get);
  const surveyed = latest?.section === section && latest.surveyed;
  const played = useDesk((state) => state.view.played);
  const still = useReducedMotion();
  if (!assessment || !surveyed) {
    const progress = latest?.section === section ? latest.progress : null;
    return (
      <>
        <p aria-live="polite">
          {progress ? `Tried ${progress.done} of ${progress.total} faults.` : "Trying one fault after the other."}
        </p>
        {progress ? <progress value={progress.done} max={progress.total} aria-label="Faults tried" /> : null}
        <button type="button" className="word" onClick={() => desk.look((view) => ({ ...view, slip: null }))}>
          Stop
        </button>
      </>
    );
  }
  const { faults } = assessment;
  const says = sentencesOf(section, units);
  // The slip would lie over what is to be seen; the strip's title leads back to the list.
  const playFault = ({ fault, part }: FaultResult): void =>
    desk.look((view) => ({ ...play(view, { what: "fault", fault, part }, !still), slip: null, selection: new Set() }));
  if (faults.length === 0) return <p>No fault to be tried on this drawing.</p>;
  return (
    <table className="grid-table faults">
      <caption className="hint">Worst first. Press one to see it played on the drawing.</caption>
      <thead>
        <tr>
          <th scope="col">fault</th>
          <th scope="col">outcome</th>
          <th scope="col" className="figure">
            left in the ponds
          </th>
          <th scope="col">why</th>
        </tr>
      </thead>
      <tbody>
        {faults.map((fault) => (
          <tr
            key={`${fault.fault} ${fault.part ?? ""}`}
            className="pressed-whole"
            onClick={() => playFault(fault)}
            aria-current={isPlayed(played, fault) ? "true" : undefined}
          >
            <th scope="row">
              <button type="button" className="word" title="Play it on the drawing">
                <b>{wholeFigures(says(fault.title))}</b>
              </button>
            </th>
            <td className="whole">{fault.outcome}</td>
            <td className="figure">{showQuantity("volume", fault.pondLeft, units)}</td>
            <td>{wholeFigures(says(fault.reason))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const isPlayed = (played: Played | null, { fault, part }: FaultResult): boolean =>
  played?.what === "fault" && played.fault === fault && played.part === part;
