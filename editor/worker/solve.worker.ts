/** Solves sections off the main thread. One answer a question; the asker drops those it no longer wants. */
import {
  assess,
  dataOf,
  eachFault,
  type FaultResult,
  mendsFor,
  type Section,
  worstFirst,
} from "../../hydraulics/index.ts";
import type { Answer, Question } from "./messages.ts";

self.addEventListener("message", (event: MessageEvent<Question>) => {
  self.postMessage(answer(event.data));
});

/** In a drag each state is near the one before. */
let from: ReturnType<typeof assess>["state"] | null = null;

function answer({ run, section, depth }: Question): Answer {
  // The edge of the worker: a broken promise of our own code is told, not lost.
  try {
    const quick = depth === "quick";
    const assessed = assess(section, quick && from ? { quick, from } : { quick });
    from = assessed.running.converged ? assessed.state : null;
    const mends = depth === "mends" ? assessed.findings.map((finding) => mendsFor(section, assessed, finding)) : null;
    return {
      run,
      assessment: { ...dataOf(assessed), faults: depth === "faults" ? survey(run, section, assessed) : [] },
      mends,
    };
  } catch (error) {
    return { run, broken: error instanceof Error ? error.message : String(error) };
  }
}

/** One fault after the other, each told; who wants no more of it ends the worker. */
function survey(run: number, section: Section, { state, powerCut }: ReturnType<typeof assess>): readonly FaultResult[] {
  if (!powerCut) return [];
  const results: FaultResult[] = [];
  for (const { done, total, result } of eachFault(section, { state, powerCut })) {
    results.push(result);
    self.postMessage({ run, progress: { done, total } } satisfies Answer);
  }
  return worstFirst(results);
}
