/** Solves sections off the main thread. One answer a question; the asker drops those it no longer wants. */
import { assess } from "../../hydraulics/index.ts";
import type { Answer, Question } from "./messages.ts";

self.addEventListener("message", (event: MessageEvent<Question>) => {
  self.postMessage(answer(event.data));
});

function answer({ run, section, depth }: Question): Answer {
  // The edge of the worker: a broken promise of our own code is told, not lost.
  try {
    // The solver's own state holds functions and stays here.
    const { state: _, ...assessment } = assess(section, { quick: depth === "quick", faults: depth === "faults" });
    return { run, assessment };
  } catch (error) {
    return { run, broken: error instanceof Error ? error.message : String(error) };
  }
}
