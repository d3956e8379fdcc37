/** What the solver said, and about which section: no number is shown beside a drawing that it is not of. */
import { type Assessment, type FaultKey, type Running, type Section, solveRunning } from "../../hydraulics/index.ts";
import { newFollower, startFollowing } from "./following.ts";
import type { Answer, Depth, Mends, Progress } from "./messages.ts";
import { handRests, newWorker, startSolving } from "./solving.ts";

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
  /** In the worker; the answer comes to the listeners.
   * @param played the fault on the sheet: `assessment.faults` has it alone until the survey is made */
  ask(section: Section, depth: Depth, played?: FaultKey | null): void;
  /** The running state for a drag. Of a small drawing here and now; of a larger one, where that would cost the hand a
   * frame, the newest that a worker has solved on the way to this section, and the listeners hear when it has come
   * further. Null where no state of this drawing is known. */
  runningNow(section: Section): Running | null;
  /** How many sections the one that `runningNow` last gave is older than the one it was asked for; 0 where it is exact. */
  behind(): number;
  /** Counts states that came from the worker: another number, another `runningNow`. */
  arrivals(): number;
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
  const faults = (depth !== "faults" && before?.surveyed && before.assessment?.faults) || assessment.faults;
  return { assessment: { ...assessment, faults }, mends: mends ?? before?.mends ?? null, surveyed };
}

/** ms a solve in mid drag may take on the main thread. Measured: 2 to 4 ms for the samples, from the state of
 * the frame before. A drawing that takes longer several times on end is left to the worker until the hand has
 * rested: another program may have had the processor. */
const leastFrame = 7;
const patience = 3;
/** ms between two verdicts that say the same, in mid drag: the strip's curves and the title's figures are drawn anew with
 * each, and nobody reads them faster. One that says something else is shown at once, and so is the last of all. */
const readable = 400;
/** ms without a question after which it is tried again */
const rested = 1000;
/** Measured from the state of the frame before, in processor time on a slow machine: 4 ms at 11 parts, 18 at 60. */
const mostParts = 30;

/** What an answer says in words: how each vessel fares, and what is found. */
const verdictsOf = ({ powerCut, findings }: Assessment): string =>
  [
    ...[...(powerCut?.vessels ?? [])].map(([id, { verdict, heldBy }]) => `${id} ${verdict} ${heldBy}`),
    ...findings.map(({ code, parts }) => `${code} ${parts.join(" ")}`),
  ].join("; ");

interface Kept {
  readonly section: Section;
  readonly running: Running;
  /** place of the section among those asked for */
  readonly place: number;
}

/** Whether one is an edit of the other: what an edit leaves alone stays the same object. */
function sameDrawing(a: Section, b: Section): boolean {
  let shared = a.site === b.site;
  for (const [id, part] of b.parts) {
    const was = a.parts.get(id);
    if (was && was.kind !== part.kind) return false;
    if (was === part) shared = true;
  }
  return shared;
}

export function createResults(): Results {
  let latest: Result | null = null;
  let kept: Kept | null = null;
  let place = 0;
  let asked: Section | null = null;
  const places = new WeakMap<Section, number>();
  let arrivals = 0;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const listeners = new Set<() => void>();
  const keep = (section: Section, running: Running): void => {
    const at = places.get(section) ?? place;
    if (!kept || at >= kept.place || !sameDrawing(kept.section, section)) kept = { section, running, place: at };
  };
  const announce = (): void => {
    for (const listener of listeners) listener();
  };
  /** What comes in mid drag is shown together with the next move, not in a frame of its own; where the hand rests, as
   * soon as that is known. */
  const whenHandRests = (work: () => void): ReturnType<typeof setTimeout> => {
    const before = asked;
    return setTimeout(() => {
      if (asked === before) work();
    }, handRests);
  };
  let shownAt = Number.NEGATIVE_INFINITY;
  let verdicts: string | null = null;
  const show = (result: Result): void => {
    latest = result;
    verdicts = result.assessment && verdictsOf(result.assessment);
    shownAt = performance.now();
  };
  const tell = (result: Result): void => {
    if (result.assessment) keep(result.section, result.assessment.running);
    clearTimeout(waiting);
    if (result.depth !== "quick") {
      show(result);
      return announce();
    }
    const saysSame = verdicts !== null && result.assessment !== null && verdictsOf(result.assessment) === verdicts;
    if (!saysSame || performance.now() - shownAt >= readable) show(result);
    // What waits is shown where the hand rests, or a later one in its place.
    waiting = whenHandRests(() => {
      if (latest !== result) show(result);
      announce();
    });
  };
  const following = startFollowing(newFollower, (section, running) => {
    keep(section, running);
    arrivals += 1;
    whenHandRests(announce);
  });
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
  let slow = 0;
  let lastAsked = Number.NEGATIVE_INFINITY;
  const solvedHere = (section: Section): Running | null => {
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
      return running;
    } catch {
      from = null;
      slow = patience;
      return null;
    }
  };
  return {
    get: () => latest,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    ask: (section, depth, played) => solving.ask({ section, depth, ...(played ? { played } : {}) }),
    runningNow(section) {
      if (section !== asked) {
        asked = section;
        place += 1;
        places.set(section, place);
      }
      if (kept?.section === section) return kept.running;
      const here = solvedHere(section);
      if (here) keep(section, here);
      else following.ask(section);
      return kept && sameDrawing(kept.section, section) ? kept.running : null;
    },
    behind: () => (asked && kept && kept.section !== asked ? Math.max(place - kept.place, 1) : 0),
    arrivals: () => arrivals,
  };
}
