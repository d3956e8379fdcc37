import type { Assessment, Section } from "../../hydraulics/index.ts";

/** `quick`: no range of uncertain inputs, for a drag; `full`; `faults`: with the survey of single faults. */
export type Depth = "quick" | "full" | "faults";

export interface Question {
  readonly run: number;
  readonly section: Section;
  readonly depth: Depth;
}

export type Answer =
  | { readonly run: number; readonly assessment: Assessment }
  | { readonly run: number; readonly broken: string };
