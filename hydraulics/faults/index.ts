/** The survey of single faults. */
import type { Section } from "../document/section.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { Steady } from "../solver/steady.ts";
import type { FaultResult } from "./fault.ts";

export interface SurveyStart {
  readonly state: Steady;
  readonly powerCut: PowerCut;
}

/** Worst first. */
export function surveyFaults(_section: Section, _start: SurveyStart): readonly FaultResult[] {
  return [];
}
