/** Asks for what the sheet wants to know of a section, and gives what is known of it. */
import { useCallback, useEffect, useSyncExternalStore } from "react";
import type { Finding, Mend, Section } from "../../hydraulics/index.ts";
import type { View } from "../state/view.ts";
import type { Depth } from "../worker/messages.ts";
import type { Result, Results } from "../worker/results.ts";
import { type Shown, shownOf } from "./shown.ts";

/** ms of rest */
const mendsAfter = 250;

export interface Asked {
  /** what is on the sheet */
  readonly section: Section;
  readonly inHand: boolean;
  readonly view: View;
}

export interface Known {
  readonly shown: Shown;
  readonly result: Result | null;
  /** null while they are sought */
  readonly mendsOf: (finding: Finding) => readonly Mend[] | null;
}

export function useShown(results: Results, { section, inHand, view }: Asked): Known {
  const result = useSyncExternalStore(results.subscribe, results.get);
  useSyncExternalStore(results.subscribe, results.arrivals);
  const wanted = inHand ? "quick" : stillWanted(view, result?.section === section ? result : null);
  const playedFault = view.played?.what === "fault" ? view.played : null;
  useEffect(() => {
    if (!wanted) return;
    const ask = () => results.ask(section, wanted, playedFault);
    if (wanted !== "mends") return ask();
    // They take longest: none are sought while one edit follows another.
    const timer = setTimeout(ask, mendsAfter);
    return () => clearTimeout(timer);
  }, [results, section, wanted, playedFault]);

  const mendsOf = useCallback(
    (finding: Finding): readonly Mend[] | null => {
      if (!result?.mends) return null;
      return result.mends[result.assessment?.findings.indexOf(finding) ?? -1] ?? [];
    },
    [result],
  );
  return { shown: shownOf(section, result, results), result, mendsOf };
}

/** First what the sheet shows; what takes longer follows. Null where all that is wanted is known. */
function stillWanted(view: View, known: Result | null): Depth | null {
  if (!known?.assessment || known.depth === "quick") return "full";
  if ((view.slip === "faults" || view.played?.what === "fault") && !known.surveyed) return "faults";
  const wantsMends = view.slip === "findings" || view.selection.size === 1;
  return wantsMends && known.mends === null ? "mends" : null;
}
