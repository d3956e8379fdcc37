/** A finding: something about this drawing that a person should know, with a mend where one exists. */
import type { PartId, Section } from "../document/section.ts";

export type Severity = "failure" | "warning" | "advice";

/** A change that was applied to a copy, solved, and seen to remove the finding. */
export interface Mend {
  /** what it does, in the imperative: `Raise the vent's tee to 0.68 m` */
  readonly label: string;
  /** what else changes: `flow −3 %` */
  readonly sideEffect: string;
  readonly section: Section;
}

export interface Finding {
  /** stable, kebab-case */
  readonly code: string;
  readonly severity: Severity;
  readonly parts: readonly PartId[];
  /** one sentence: why */
  readonly text: string;
  /** one sentence: what to do */
  readonly remedy: string;
  /** the numbers in it, SI, by name */
  readonly figures: Readonly<Record<string, number>>;
}
