/** Asks the worker, newest section first. While one section is being solved only the newest of those that
 * came after it waits; a run that takes longer than `patience` is given up when a newer one waits, a survey or a search
 * for mends at once: the worker is sent the newer one, and leaves the older between two of its steps. A worker that says
 * nothing for `stuck` after that is ended: another one has to load and to warm up, which costs more than most runs have
 * left. In mid drag no run is given up: the next section would take as long, so on a large sheet no answer would ever
 * come. But the worker rests between two runs of a drag: one that is always at work takes a machine of two processors
 * half of what the hand needs. */
import type { FaultKey, Section } from "../../hydraulics/index.ts";
import type { Answer, Question, SentQuestion } from "./messages.ts";
import { sectionDelta } from "./sectionDelta.ts";

export type Asked = Omit<Question, "run">;

export interface Solving {
  ask(asked: Asked): void;
  close(): void;
}

/** The part of a Worker that is used, so that a test can stand in for one. */
export interface Solver {
  postMessage(question: Question): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<Answer>) => void) | null;
}

/** ms */
const patience = 400;
const stuck = 4000;
/** In mid drag the worker rests so many times as long as its last run took, but no longer than `longestRest` ms. */
const restShare = 3;
const longestRest = 300;
/** ms without a move after which a hand is taken to rest: three frames */
export const handRests = 50;

export function startSolving(
  make: () => Solver,
  tell: (asked: Asked, answer: Answer) => void,
  now: () => number = () => performance.now(),
): Solving {
  let worker = make();
  let run = 0;
  let busy: { readonly run: number; readonly asked: Asked; readonly since: number } | null = null;
  let waiting: Asked | null = null;
  let watch: ReturnType<typeof setTimeout> | undefined;
  /** of a drag, when the worker has rested */
  let rested = 0;
  let wake: ReturnType<typeof setTimeout> | undefined;
  const isGivenUp = ({ asked, since }: NonNullable<typeof busy>): boolean =>
    asked.depth === "faults" || asked.depth === "mends" || now() - since >= patience;
  const listen = (): void => {
    worker.onmessage = ({ data }) => {
      if (!busy || data.run !== busy.run) return;
      clearTimeout(watch);
      watch = undefined;
      const { asked, since } = busy;
      if ("progress" in data) {
        tell(asked, data);
        // A survey that nobody waits for any more is not run to its end.
        if (waiting && isGivenUp(busy)) supersede(waiting);
        return;
      }
      busy = null;
      const next = waiting;
      waiting = null;
      // While a drag goes on an answer is shown even when a newer section waits, so that the verdict keeps up;
      // otherwise an answer to a section that is no longer shown is dropped.
      if (next === null || next.depth === "quick") tell(asked, data);
      if (!next) return;
      if (next.depth !== "quick" || asked.depth !== "quick") return send(next);
      rested = now() + Math.min(restShare * (now() - since), longestRest);
      sendRested(next);
    };
  };
  /** When the worker has rested, or the hand does. */
  const sendRested = (asked: Asked): void => {
    clearTimeout(wake);
    wake = setTimeout(() => send(asked), Math.min(rested - now(), handRests));
  };
  const send = (asked: Asked): void => {
    clearTimeout(wake);
    rested = 0;
    run += 1;
    busy = { run, asked, since: now() };
    worker.postMessage({ run, ...asked });
  };
  const supersede = (asked: Asked): void => {
    waiting = null;
    send(asked);
    watch ??= setTimeout(restart, stuck);
  };
  const restart = (): void => {
    watch = undefined;
    const asked = waiting ?? busy?.asked;
    worker.terminate();
    worker = make();
    listen();
    waiting = null;
    if (asked) send(asked);
  };
  listen();
  return {
    ask(asked) {
      if (!busy) return asked.depth === "quick" && now() < rested ? sendRested(asked) : send(asked);
      if (sameQuestion(busy.asked, asked)) {
        waiting = null;
        return;
      }
      waiting = asked;
      const inDrag = busy.asked.depth === "quick" && asked.depth === "quick";
      if (!inDrag && isGivenUp(busy)) supersede(asked);
    },
    close() {
      clearTimeout(watch);
      clearTimeout(wake);
      worker.terminate();
    },
  };
}

const sameQuestion = (a: Asked, b: Asked): boolean =>
  a.section === b.section && a.depth === b.depth && sameFault(a.played, b.played);

const sameFault = (a: FaultKey | undefined, b: FaultKey | undefined): boolean =>
  a?.fault === b?.fault && a?.part === b?.part;

/** A worker that is sent of each section only what makes it of the one before. */
export function newWorker(): Solver {
  const worker = new Worker(new URL("./solve.worker.ts", import.meta.url), { type: "module" });
  let known: Section | null = null;
  const solver: Solver = {
    onmessage: null,
    postMessage({ section, ...question }) {
      const sent: SentQuestion = { ...question, delta: sectionDelta(known, section) };
      known = section;
      worker.postMessage(sent);
    },
    terminate: () => worker.terminate(),
  };
  worker.onmessage = (event: MessageEvent<Answer>) => solver.onmessage?.(event);
  return solver;
}
