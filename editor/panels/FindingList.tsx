import type { JSX } from "react";
import type { Finding, Section } from "../../hydraulics/index.ts";
import { replaceSection } from "../state/actions/replaceSection.ts";
import { useProgram } from "./useDesk.ts";

const severityWords = { failure: "Fails", warning: "Look at this", advice: "Advice" } as const;

/** A finding may carry the change that mends it; it is one step like any other. */
type WithMend = Finding & {
  readonly mends?: readonly { readonly label: string; readonly sideEffect: string; readonly section: Section }[];
  readonly mend?: { readonly label: string; readonly sideEffect: string; readonly section: Section } | null;
};

export function FindingList({
  findings,
  section,
  pick = false,
}: {
  readonly findings: readonly Finding[];
  readonly section: Section;
  readonly pick?: boolean;
}): JSX.Element {
  const { desk } = useProgram();
  return (
    <ul className="findings">
      {findings.map((finding) => {
        const { mend, mends } = finding as WithMend;
        const offers = mends ?? (mend ? [mend] : []);
        const parts = finding.parts.map((id) => section.parts.get(id)).filter((part) => part !== undefined);
        return (
          <li key={`${finding.code} ${finding.parts.join(" ")}`} className={finding.severity}>
            <p>
              <span className="kind">{severityWords[finding.severity]}.</span> {finding.text}{" "}
              <span className="remedy">{finding.remedy}</span>
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
                    Show {part.label ?? part.id}
                  </button>
                ))}
              </p>
            ) : null}
            {offers.map((offer) => (
              <p key={offer.label}>
                <button
                  type="button"
                  className="mend"
                  onClick={() => desk.apply(replaceSection(section, offer.label, offer.section))}
                >
                  {offer.label}
                </button>
                {offer.sideEffect ? <span className="hint"> {offer.sideEffect}</span> : null}
              </p>
            ))}
          </li>
        );
      })}
    </ul>
  );
}
