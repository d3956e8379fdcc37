/** The second judge on a simulated power cut: the closed form,
 * fed with the levels and ratings that the cut began with. */
import type { PartId, Section } from "../document/section.ts";
import { froudeFull } from "../formulas/froude.ts";
import type { PipeReading, RunningState } from "../solver/running.ts";
import { type ClosedForm, closedForm, type Given } from "./closedForm.ts";
import { bottomDraws } from "./closedFormDraws.ts";
import type { PowerCut } from "./powerCut.ts";
import { rateVents } from "./rateVents.ts";

export function judgeByLevels(section: Section, running: RunningState, cut: PowerCut): ClosedForm {
  const startLevels = new Map<PartId, number>();
  for (const [id, vessel] of cut.vessels) startLevels.set(id, vessel.startLevel);
  for (const [id, pond] of cut.ponds) startLevels.set(id, pond.startLevel);
  const fastPipes = new Set([...running.pipes].filter(([id, pipe]) => runsFast(section, id, pipe)).map(([id]) => id));
  const given: Given = { startLevels, ventRatings: new Map(), fastPipes };
  // The cut reports the ratings of the run that it took; the judge weighs both runs, so it needs both ratings.
  const rate = (asFull: ReadonlySet<PartId>) =>
    new Map([...rateVents(section, startLevels, asFull)].map(([id, vent]) => [id, vent.rating] as const));
  return closedForm(section, {
    ...given,
    ventRatings: rate(new Set()),
    pulledRatings: rate(bottomDraws(section, given)),
  });
}

/** Fast enough at the mouth it draws from to fill and pull: full-bore Froude number of 1 or more. */
function runsFast(section: Section, id: PartId, { runs, flow, stretches }: PipeReading): boolean {
  const pipe = section.parts.get(id);
  if (runs !== "gravity" || pipe?.kind !== "pipe") return false;
  const atMouth = (flow < 0 ? stretches.at(-1) : stretches[0])?.[2] ?? 0;
  return froudeFull(atMouth, pipe.bore) >= 1;
}
