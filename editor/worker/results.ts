/** What the solver said, and about which section: no number is shown beside a drawing that it is not of. */
import { type Assessment, type Running, type Section, solveRunning } from "../../hydraulics/index.ts";
import type { Answer, Depth, Mends, Progress } from "./messages.ts";
import { newWorker, startSolving } from "./solving.ts";

export interface Result {
  readonly section: Section;
  readonly depth: Depth;
  readonly assessment: Assessment | null;
  /** what would mend each finding, in their order; null where it was not asked for */
  readonly mends: Mends | null;
  /** the survey of this section has been made: `assessment.faults` is whole */
  readonly surveyed: boolean;
  /** how far a survey is that is under way; null where none is */
  readonly progress: Progress | null;
  /** our own mistake, told instead of numbers */
  readonly broken: string | null;
}

export interface Results {
  get(): Result | null;
  subscribe(listener: () => void): () => void;
  /** In the worker; the answer comes to the listeners. */
  ask(section: Section, depth: Depth): void;
  /** The running state here and now, for a drag; null where that would cost the hand a frame. */
  runningNow(section: Section): Running | null;
}

/** Faults and mends that an earlier answer brought stay with their section: who asks for the one keeps the other. */
function withWhatIsKnown(
  { assessment, mends }: Extract<Answer, { assessment: Assessment }>,
  section: Section,
  depth: Depth,
  latest: Result | null,
): Pick<Result, "assessment" | "mends" | "surveyed"> {
  const before = latest?.section === section && latest.depth !== "quick" && depth !== "quick" ? latest : null;
  const surveyed = depth === "faults" || before?.surveyed === true;
  const faults = depth === "faults" ? assessment.faults : (before?.assessment?.faults ?? []);
  return { assessment: { ...assessment, faults }, mends: mends ?? before?.mends ?? null, surveyed };
}

/** ms a solve in mid drag may take on the main thread. Measured: 2 to 4 ms for the samples, from the state of
 * the frame before. A drawing that takes longer several times on end is left to the worker until the hand has
 * rested: another program may have had the processor. */
const leastFrame = 7;
const patience = 3;
/** ms without a question after which it is tried again */
const rested = 1000;
/** Measured from the state of the frame before, in processor time on a slow machine: 40 ms at 200 parts, 45 at 500, 94 at
 * 1,000. Where 200 parts can be solved in a frame so can 500; trying is what more would cost. */
const mostParts = 500;

export function createResults(): Results {
  let latest: Result | null = null;
  const listeners = new Set<() => void>();
  const tell = (result: Result): void => {
    latest = result;
    for (const listener of listeners) listener();
  };
  const solving = startSolving(newWorker, ({ section, depth }, answer) => {
    if ("progress" in answer) {
      if (latest?.section === section) tell({ ...latest, progress: answer.progress });
      return;
    }
    tell(
      "assessment" in answer
        ? { section, depth, progress: null, broken: null, ...withWhatIsKnown(answer, section, depth, latest) }
        : { section, depth, assessment: null, mends: null, surveyed: false, progress: null, broken: answer.broken },
    );
  });
  let from: ReturnType<typeof solveRunning>["state"] | null = null;
  let kept: { readonly section: Section; readonly running: Running } | null = null;
  let slow = 0;
  let lastAsked = Number.NEGATIVE_INFINITY;
  return {
    get: () => latest,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    ask: (section, depth) => solving.ask({ section, depth }),
    runningNow(section) {
      if (kept?.section === section) return kept.running;
      const start = performance.now();
      if (start - lastAsked > rested) slow = 0;
      lastAsked = start;
      if (slow >= patience || section.parts.size > mostParts) return null;
      // An edge like the worker's: a broken promise must not take the part out of the hand. The worker meets
      // it again and tells it.
      try {
        const { running, state } = solveRunning(section, from ? { quick: true, from } : { quick: true });
        slow = performance.now() - start > leastFrame ? slow + 1 : 0;
        from = running.converged ? state : null;
        kept = { section, running };
        return running;
      } catch {
        from = null;
        slow = patience;
        return null;
      }
    },
  };
}
