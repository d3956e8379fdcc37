/** Asks a worker of its own for the running state while a drawing changes under the hand. While one section is being
 * solved only the newest of those that came after it waits, so what is told is one solve old at most. What is asked in a
 * frame is sent after it: sent at once, the worker took a processor from the frame that had just begun to be drawn. */
import type { Running, Section } from "../../hydraulics/index.ts";
import type { RunningAnswer, RunningQuestion } from "./messages.ts";
import { withRunningDelta } from "./runningDelta.ts";
import { sectionDelta } from "./sectionDelta.ts";

/** The part of a Worker that is used, so that a test can stand in for one. */
export interface Follower {
  postMessage(question: RunningQuestion): void;
  onmessage: ((event: MessageEvent<RunningAnswer>) => void) | null;
}

export interface Following {
  ask(section: Section): void;
}

/** @param make started with the first question: small drawings never need it */
export function startFollowing(make: () => Follower, tell: (section: Section, running: Running) => void): Following {
  let worker: Follower | null = null;
  let known: Section | null = null;
  let running: Running | null = null;
  let busy = false;
  let waiting: Section | null = null;
  let due = false;
  const answered = ({ data }: MessageEvent<RunningAnswer>): void => {
    busy = false;
    const of = known as Section;
    if ("delta" in data) {
      running = withRunningDelta(running, data.delta);
      tell(of, running);
    }
    sendNewest();
  };
  const sendNewest = (): void => {
    due = false;
    const next = waiting;
    if (busy || !next) return;
    waiting = null;
    send(next);
  };
  const send = (section: Section): void => {
    if (!worker) {
      worker = make();
      worker.onmessage = answered;
    }
    busy = true;
    const delta = sectionDelta(known, section);
    known = section;
    worker.postMessage({ delta });
  };
  return {
    ask(section) {
      waiting = section === known ? null : section;
      if (busy || !waiting || due) return;
      due = true;
      setTimeout(sendNewest);
    },
  };
}

export const newFollower = (): Follower =>
  new Worker(new URL("./running.worker.ts", import.meta.url), { type: "module" }) as Follower;
