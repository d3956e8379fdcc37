/** Answers questions about sections, each in steps between which a newer question may come in. */
import {
  type Assessed,
  assess,
  dataOf,
  eachFault,
  type FaultResult,
  type Mend,
  mendsFor,
  playFault,
  worstFirst,
} from "../../hydraulics/index.ts";
import type { Answer, Question } from "./messages.ts";

export interface Between {
  /** Lets a question in that has come meanwhile. False where one has: this run is no longer wanted. */
  goesOn(run: number): Promise<boolean>;
  tell(answer: Answer): void;
}

/** What is returned answers one question; null where its run is no longer wanted. */
export function startAnswering(between: Between): (question: Question) => Promise<Answer | null> {
  /** In a drag each state is near the one before. */
  let from: Assessed["state"] | null = null;
  return async (question) => {
    const { run, section, depth } = question;
    // The edge of the worker: a broken promise of our own code is told, not lost.
    try {
      // Of questions that have piled up during a long step only the newest is solved.
      if (!(await between.goesOn(run))) return null;
      const quick = depth === "quick";
      const assessed = assess(section, quick && from ? { quick, from } : { quick });
      from = assessed.running.converged ? assessed.state : null;
      const mends = depth === "mends" ? await mendsOf(question, assessed, between) : null;
      const faults = depth === "faults" ? await survey(question, assessed, between) : played(question, assessed);
      if (faults === null || (depth === "mends" && mends === null)) return null;
      return { run, assessment: { ...dataOf(assessed), faults }, mends };
    } catch (error) {
      return { run, broken: error instanceof Error ? error.message : String(error) };
    }
  };
}

/** In the findings' order; null where nobody wants more of it. */
async function mendsOf({ run, section }: Question, assessed: Assessed, { goesOn }: Between): Promise<Mend[][] | null> {
  const mends: Mend[][] = [];
  for (const finding of assessed.findings) {
    if (!(await goesOn(run))) return null;
    mends.push([...mendsFor(section, assessed, finding)]);
  }
  return mends;
}

/** One fault after the other, each told; null where nobody wants more of it. */
async function survey(
  { run, section }: Question,
  { state, powerCut }: Assessed,
  { goesOn, tell }: Between,
): Promise<readonly FaultResult[] | null> {
  if (!powerCut) return [];
  const results: FaultResult[] = [];
  for (const { done, total, result } of eachFault(section, { state, powerCut })) {
    results.push(result);
    tell({ run, progress: { done, total } });
    if (!(await goesOn(run))) return null;
  }
  return worstFirst(results);
}

/** The fault on the sheet alone: the sheet goes on with it while the survey has yet to be made. */
function played({ section, played: key }: Question, { state, powerCut }: Assessed): readonly FaultResult[] {
  const result = key && powerCut ? playFault(section, { state, powerCut }, key) : null;
  return result ? [result] : [];
}
