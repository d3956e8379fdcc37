/** What is put on the sheet at this moment: a section and the numbers that belong to it. */
import type { Assessment, Running, Section } from "../../hydraulics/index.ts";
import type { Result, Results } from "../worker/results.ts";

export interface Shown {
  readonly section: Section;
  readonly running: Running | null;
  /** whole and of this very section; null while it is being solved */
  readonly assessment: Assessment | null;
  /** For verdict, strip and findings. In mid drag it may be as old as a verdict takes and its worker rests after one
   * (`worker/solving.ts`: up to 0.3 s), and 0.4 s more where it says the same in words (`worker/results.ts`), so that the
   * title block does not blink; never of a drawing with other parts. */
  readonly latest: Assessment | null;
}

export function shownOf(section: Section, result: Result | null, results: Results): Shown {
  const exact = result?.section === section ? result.assessment : null;
  if (exact) return { section, running: exact.running, assessment: exact, latest: exact };
  const near = result?.assessment && sameParts(result.section, section) ? result.assessment : null;
  // Solved here until the worker has said the rest, so that no edit makes the figures blink.
  const running = results.runningNow(section);
  return { section, running, assessment: null, latest: near && (running === null || running.converged) ? near : null };
}

function sameParts(a: Section, b: Section): boolean {
  if (a.parts.size !== b.parts.size) return false;
  for (const [id, part] of a.parts) if (b.parts.get(id)?.kind !== part.kind) return false;
  return true;
}
