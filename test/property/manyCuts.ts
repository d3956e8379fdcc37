/** The power cut of each of `manyDrawings`, run once for all files that ask. */
import type { Section } from "../../hydraulics/document/section.ts";
import { type Assessed, assessed } from "../scenarios/assessed.ts";
import { manyDrawings } from "../support/drawings.ts";
import { randomSection, type Wanted } from "../support/randomSection.ts";

export interface DrawnCut {
  readonly wanted: Required<Wanted>;
  readonly section: Section;
  /** null where the running state did not converge */
  readonly result: Assessed | null;
}

let made: readonly DrawnCut[] | null = null;

export function manyCuts(): readonly DrawnCut[] {
  made ??= [...manyDrawings()].map((wanted) => {
    const section = randomSection(wanted);
    return { wanted, section, result: assessed(section) };
  });
  return made;
}
