/** Solves the running state alone, for a drag: each from the state before, and only what changed is sent. */
import { type Running, type Section, solveRunning } from "../../hydraulics/index.ts";
import type { RunningAnswer, RunningQuestion } from "./messages.ts";
import { runningDelta, withRunningDelta } from "./runningDelta.ts";
import { withDelta } from "./sectionDelta.ts";

let section: Section | null = null;
let sent: Running | null = null;
let from: ReturnType<typeof solveRunning>["state"] | null = null;

self.addEventListener("message", ({ data }: MessageEvent<RunningQuestion>) => {
  section = withDelta(section, data.delta);
  self.postMessage(answer(section));
});

function answer(now: Section): RunningAnswer {
  // The edge of the worker: a broken promise of our own code is met again, and told, by the worker that assesses.
  try {
    const { running, state } = solveRunning(now, from ? { quick: true, from } : { quick: true });
    from = running.converged ? state : null;
    const delta = runningDelta(sent, running);
    // What the page knows now, not what was solved: differences too small to send would add up unseen.
    sent = withRunningDelta(sent, delta);
    return { delta };
  } catch (error) {
    from = null;
    return { broken: error instanceof Error ? error.message : String(error) };
  }
}
