/** Solves sections off the main thread. One answer a question; the asker drops those it no longer wants. */
import {
  assess,
  dataOf,
  eachFault,
  type FaultResult,
  type Mend,
  mendsFor,
  type Section,
  worstFirst,
} from "../../hydraulics/index.ts";
import type { Answer, Question } from "./messages.ts";

/** the run that was asked for last: an older one is left between two of its steps, unanswered */
let newest = 0;

self.addEventListener("message", async ({ data }: MessageEvent<Question>) => {
  newest = data.run;
  const said = await answer(data);
  if (said) self.postMessage(said);
});

/** Lets a question in that has come meanwhile. False where it has: this run is no longer wanted. */
function goesOn(run: number): Promise<boolean> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done(run === newest);
    };
    port2.postMessage(null);
  });
}

/** In a drag each state is near the one before. */
let from: ReturnType<typeof assess>["state"] | null = null;

async function answer({ run, section, depth }: Question): Promise<Answer | null> {
  // The edge of the worker: a broken promise of our own code is told, not lost.
  try {
    const quick = depth === "quick";
    const assessed = assess(section, quick && from ? { quick, from } : { quick });
    from = assessed.running.converged ? assessed.state : null;
    let mends: Mend[][] | null = null;
    if (depth === "mends") {
      mends = [];
      for (const finding of assessed.findings) {
        if (!(await goesOn(run))) return null;
        mends.push([...mendsFor(section, assessed, finding)]);
      }
    }
    const faults = depth === "faults" ? await survey(run, section, assessed) : [];
    return faults && { run, assessment: { ...dataOf(assessed), faults }, mends };
  } catch (error) {
    return { run, broken: error instanceof Error ? error.message : String(error) };
  }
}

/** One fault after the other, each told; null where nobody wants more of it. */
async function survey(
  run: number,
  section: Section,
  { state, powerCut }: ReturnType<typeof assess>,
): Promise<readonly FaultResult[] | null> {
  if (!powerCut) return [];
  const results: FaultResult[] = [];
  for (const { done, total, result } of eachFault(section, { state, powerCut })) {
    results.push(result);
    self.postMessage({ run, progress: { done, total } } satisfies Answer);
    if (!(await goesOn(run))) return null;
  }
  return worstFirst(results);
}
