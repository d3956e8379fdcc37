/** Solves sections off the main thread. One answer a question; the asker drops those it no longer wants. */
import { assess, mendsFor } from "../../hydraulics/index.ts";
import type { Answer, Question } from "./messages.ts";

self.addEventListener("message", (event: MessageEvent<Question>) => {
  self.postMessage(answer(event.data));
});

function answer({ run, section, depth }: Question): Answer {
  // The edge of the worker: a broken promise of our own code is told, not lost.
  try {
    const assessed = assess(section, { quick: depth === "quick", faults: depth === "faults" });
    const mends = depth === "mends" ? assessed.findings.map((finding) => mendsFor(section, assessed, finding)) : null;
    // The solver's own state holds functions and stays here.
    const { state: _, ...assessment } = assessed;
    return { run, assessment, mends };
  } catch (error) {
    return { run, broken: error instanceof Error ? error.message : String(error) };
  }
}
