/** A drawing's power cut as the program finds it, with what the judge is given of it. */
import type { Section } from "../../hydraulics/document/section.ts";
import type { ClosedForm } from "../../hydraulics/powerCut/closedForm.ts";
import { judgeByLevels } from "../../hydraulics/powerCut/judgeByLevels.ts";
import type { PowerCut } from "../../hydraulics/powerCut/powerCut.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import type { RunningState } from "../../hydraulics/solver/running.ts";
import { type Steady, solveSteady } from "../../hydraulics/solver/steady.ts";

export interface Assessed {
  readonly state: Steady;
  readonly running: RunningState;
  readonly cut: PowerCut;
}

/** Null where the running state did not converge. */
export function assessed(section: Section): Assessed | null {
  const state = solveSteady(section);
  if (!state.solved.converged) return null;
  const running = readings(state, { range: new Map(), straight: new Map() });
  return { state, running, cut: simulatePowerCut(section, state) };
}

export const judgeAfter = (section: Section, { running, cut }: Assessed): ClosedForm =>
  judgeByLevels(section, running, cut);
