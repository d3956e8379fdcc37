import type { Assessment, FaultKey, Mend, Section } from "../../hydraulics/index.ts";
import type { RunningDelta } from "./runningDelta.ts";
import type { SectionDelta } from "./sectionDelta.ts";

/** `quick`: no range of uncertain inputs, for a drag; `full`; `mends`: with what would mend each finding;
 * `faults`: with the survey of single faults. */
export type Depth = "quick" | "full" | "mends" | "faults";

export interface Question {
  readonly run: number;
  readonly section: Section;
  readonly depth: Depth;
  /** the fault that is played on the sheet: told with every answer, before the survey that it is one of */
  readonly played?: FaultKey;
}

/** As it goes to the worker: in the section's place what makes it of the one sent before. */
export interface SentQuestion extends Omit<Question, "section"> {
  readonly delta: SectionDelta;
}

/** How far a survey of faults is, told between two of them. */
export interface Progress {
  readonly done: number;
  readonly total: number;
}

export type Answer =
  | { readonly run: number; readonly progress: Progress }
  | { readonly run: number; readonly assessment: Assessment; readonly mends: Mends | null }
  | { readonly run: number; readonly broken: string };

/** Mends of each finding, in the findings' order. */
export type Mends = readonly (readonly Mend[])[];

/** To the worker that solves the running state alone: what makes the section of the one asked before. */
export interface RunningQuestion {
  readonly delta: SectionDelta;
}

/** One a question, in their order. */
export type RunningAnswer = { readonly delta: RunningDelta } | { readonly broken: string };
