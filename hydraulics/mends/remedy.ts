/** What a remedy is: for one finding, changed copies of the drawing that may mend it, the gentlest first. */
import type { Assessed } from "../assess.ts";
import type { Section } from "../document/section.ts";
import type { Finding } from "../findings/finding.ts";

export interface Trouble {
  readonly section: Section;
  readonly assessed: Assessed;
  readonly finding: Finding;
}

export interface Candidate {
  /** in the imperative, with the number in it: `Give Breather a bore of 13 mm` */
  readonly label: string;
  readonly section: Section;
}

/** Candidates are made one at a time: the first that mends is offered, and the rest cost nothing. */
export type Remedy = (trouble: Trouble) => Iterable<Candidate>;
