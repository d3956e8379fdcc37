/** Lays out a drawing off the main thread, so that typing stays quick. The newest question is the one that counts. */
import { layOut } from "../../../hydraulics/index.ts";
import type { LaidOut, LayoutQuestion } from "./laidOut.ts";

self.addEventListener("message", ({ data }: MessageEvent<LayoutQuestion>) => {
  self.postMessage(answer(data));
});

function answer({ run, answers }: LayoutQuestion): LaidOut {
  // The edge of the worker: a broken promise of our own code is told, not lost.
  try {
    const laid = layOut(answers);
    if (!laid.ok) return { run, ok: false, refusal: laid.error };
    return { run, ok: true, ...laid.value };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { run, ok: false, refusal: { answers: [], why: `The layout broke a promise of its own (${why}).` } };
  }
}
