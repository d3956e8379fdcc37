/** A drawing's power cut as the program finds it, with what the judge is given of it. */
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { bottomDraws, type ClosedForm, closedForm, type Given } from "../../hydraulics/powerCut/closedForm.ts";
import type { PowerCut } from "../../hydraulics/powerCut/powerCut.ts";
import { rateVents } from "../../hydraulics/powerCut/rateVents.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import type { RunningState } from "../../hydraulics/solver/running.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";

export interface Assessed {
  readonly running: RunningState;
  readonly cut: PowerCut;
}

/** Null where the running state did not converge. */
export function assessed(section: Section): Assessed | null {
  const state = solveSteady(section);
  if (!state.solved.converged) return null;
  return { running: readings(state, { range: new Map(), straight: new Map() }), cut: simulatePowerCut(section, state) };
}

export function judgeAfter(section: Section, { running, cut }: Assessed): ClosedForm {
  const startLevels = new Map<PartId, number>();
  for (const [id, vessel] of cut.vessels) startLevels.set(id, vessel.startLevel);
  for (const [id, pond] of cut.ponds) startLevels.set(id, pond.startLevel);
  const ventRatings = new Map([...cut.vents].map(([id, vent]) => [id, vent.rating] as const));
  const fastPipes = new Set([...running.pipes].filter(([, pipe]) => (pipe.froude ?? 0) >= 1).map(([id]) => id));
  const given: Given = { startLevels, ventRatings, fastPipes };
  // The cut reports the ratings of the run that it took; the judge weighs both runs, so it needs both ratings.
  const rate = (asFull: ReadonlySet<PartId>) =>
    new Map([...rateVents(section, startLevels, asFull)].map(([id, vent]) => [id, vent.rating] as const));
  return closedForm(section, {
    ...given,
    ventRatings: rate(new Set()),
    pulledRatings: rate(bottomDraws(section, given)),
  });
}
