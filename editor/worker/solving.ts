/** Asks the worker, newest section first. While one section is being solved only the newest of those that
 * came after it waits; a run that takes longer than `patience` when a newer one waits is ended. In mid drag it is not:
 * the next section would take as long, so on a large sheet no answer would ever come, and a worker started every few
 * frames costs the hand more than all else. */
import type { Section } from "../../hydraulics/index.ts";
import type { Answer, Depth, Question } from "./messages.ts";

export interface Asked {
  readonly section: Section;
  readonly depth: Depth;
}

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

const patience = 400;

export function startSolving(
  make: () => Solver,
  tell: (asked: Asked, answer: Answer) => void,
  now: () => number = () => performance.now(),
): Solving {
  let worker = make();
  let run = 0;
  let busy: { readonly run: number; readonly asked: Asked; readonly since: number } | null = null;
  let waiting: Asked | null = null;
  const listen = (): void => {
    worker.onmessage = ({ data }) => {
      if (!busy || data.run !== busy.run) return;
      const { asked } = busy;
      if ("progress" in data) {
        tell(asked, data);
        // A survey that nobody waits for any more is not run to its end.
        if (waiting && now() - busy.since >= patience) restart(waiting);
        return;
      }
      busy = null;
      const next = waiting;
      waiting = null;
      // While a drag goes on an answer is shown even when a newer section waits, so that the verdict keeps up;
      // otherwise an answer to a section that is no longer shown is dropped.
      if (next === null || next.depth === "quick") tell(asked, data);
      if (next) send(next);
    };
  };
  const send = (asked: Asked): void => {
    run += 1;
    busy = { run, asked, since: now() };
    worker.postMessage({ run, ...asked });
  };
  const restart = (asked: Asked): void => {
    worker.terminate();
    worker = make();
    listen();
    waiting = null;
    send(asked);
  };
  listen();
  return {
    ask(asked) {
      if (!busy) return send(asked);
      if (busy.asked.section === asked.section && busy.asked.depth === asked.depth) {
        waiting = null;
        return;
      }
      waiting = asked;
      const inDrag = busy.asked.depth === "quick" && asked.depth === "quick";
      if (!inDrag && now() - busy.since >= patience) restart(asked);
    },
    close: () => worker.terminate(),
  };
}

export const newWorker = (): Solver =>
  new Worker(new URL("./solve.worker.ts", import.meta.url), { type: "module" }) as Solver;
