import type { JSX } from "react";
import { type Finding, type Mend, needsAPerson, type Section } from "../../hydraulics/index.ts";
import { nameWithin } from "../sheet/partName.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import { replaceSection } from "../state/actions/replaceSection.ts";
import { useDesk, useProgram } from "./useDesk.ts";
import { wholeFigures } from "./wholeFigures.tsx";

const severityWords = { failure: "Fails", warning: "Look at this", advice: "Advice" } as const;

export interface FindingListProps {
  readonly findings: readonly Finding[];
  readonly section: Section;
  /** changes that were seen to mend it; null while they are sought */
  readonly mendsOf: (finding: Finding) => readonly Mend[] | null;
  /** with a way to the parts */
  readonly pick?: boolean;
}

export function FindingList({ findings, section, mendsOf, pick = false }: FindingListProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const says = sentencesOf(section, units);
  return (
    <ul className="findings">
      {findings.map((finding) => {
        // Two places a hand's breadth apart are told in the same words: one of them is enough.
        const offers = mendsOf(finding)?.filter(
          ({ label }, i, all) => all.findIndex((other) => other.label === label) === i,
        );
        const parts = finding.parts.map((id) => section.parts.get(id)).filter((part) => part !== undefined);
        return (
          <li key={`${finding.code} ${finding.parts.join(" ")}`} className={finding.severity}>
            <p>
              <span className="kind">{severityWords[finding.severity]}.</span> {wholeFigures(says(finding.text))}{" "}
              <span className="remedy">{wholeFigures(says(finding.remedy))}</span>
            </p>
            {pick && parts.length > 0 ? (
              <p>
                {parts.map((part) => (
                  <button
                    key={part.id}
                    type="button"
                    className="word"
                    onClick={() => desk.look((view) => ({ ...view, selection: new Set([part.id]), slip: null }))}
                  >
                    Show {nameWithin(part)}
                  </button>
                ))}
              </p>
            ) : null}
            {offers === undefined ? <p className="hint">Looking for what would mend it.</p> : null}
            {offers?.length === 0 ? <p className="hint">{whyNothingOffered(finding)}</p> : null}
            {offers?.map((offer) => (
              <p key={offer.label} className="offer">
                <button
                  type="button"
                  className="mend"
                  onClick={() => desk.apply(replaceSection(section, offer.label, offer.section))}
                >
                  {wholeFigures(says(offer.label))}
                </button>
                {offer.sideEffect ? <span className="hint">{wholeFigures(says(offer.sideEffect))}</span> : null}
              </p>
            ))}
          </li>
        );
      })}
    </ul>
  );
}

function whyNothingOffered({ code }: Finding): string {
  const why = needsAPerson.get(code);
  if (why === undefined) return "No change that was tried mends it and brings nothing worse.";
  return `${why.replace(/^./, (letter) => letter.toUpperCase())}.`;
}
