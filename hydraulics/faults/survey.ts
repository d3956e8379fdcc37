/** Every fault of a drawing, one after another. */
import type { Section } from "../document/section.ts";
import { waterVolume } from "../document/volumes.ts";
import { started } from "../powerCut/words.ts";
import { changedParts, withParts } from "./changed.ts";
import type { FaultKey, FaultResult, Outcome } from "./fault.ts";
import type { Drawn, FaultCase, SurveyStart } from "./faultKind.ts";
import { faultKinds } from "./faultKinds.ts";
import { follow } from "./follow.ts";
import { judge } from "./judge.ts";
import { pondsLeft, timeToHalf } from "./pondsLeft.ts";

export interface SurveyStep {
  readonly done: number;
  readonly total: number;
  readonly result: FaultResult;
}

interface Listed {
  readonly code: string;
  readonly fault: FaultCase;
}

const casesOf = (drawn: Drawn): readonly Listed[] =>
  faultKinds.flatMap(({ code, cases }) => cases(drawn).map((fault) => ({ code, fault })));

/** One fault a step, so that a worker can show how far it is and stop in between. */
export function* eachFault(section: Section, { state, powerCut }: SurveyStart): Generator<SurveyStep, void> {
  const drawn: Drawn = { section, state, powerCut };
  const cases = casesOf(drawn);
  for (const [index, { code, fault }] of cases.entries()) {
    yield { done: index + 1, total: cases.length, result: resultOf(drawn, code, fault) };
  }
}

/** One fault alone, as the survey has it: for a fault that is being played while the drawing is changed under it. Null
 * where the drawing has no such fault (any more). */
export function playFault(section: Section, { state, powerCut }: SurveyStart, key: FaultKey): FaultResult | null {
  const drawn: Drawn = { section, state, powerCut };
  const found = casesOf(drawn).find(({ code, fault }) => code === key.fault && fault.part === key.part);
  return found ? resultOf(drawn, found.code, found.fault) : null;
}

/** The drawing as it stands in a fault: its valves, its plugs, its parted lines. Levels that the fault sets (rain, a
 * low pond) are not in it; the history starts from them. */
export const sectionInFault = (section: Section, { changed }: Pick<FaultResult, "changed">): Section =>
  withParts(section, ...changed);

/** Worst first. */
export function surveyFaults(section: Section, start: SurveyStart): readonly FaultResult[] {
  return worstFirst([...eachFault(section, start)].map(({ result }) => result));
}

const weight: Record<Outcome, number> = { "fish at risk": 0, "water lost": 1, nuisance: 2, harmless: 3 };

/** What no reader can tell apart does not decide: of two faults that leave the pond alike, the last digits of a run would. */
const shares = 1e-5;
/** m³: a tenth of a litre */
const volumes = 1e-4;
const inSteps = (amount: number, step: number): number => Math.round(amount / step);

export const worstFirst = (results: readonly FaultResult[]): readonly FaultResult[] =>
  [...results].sort(
    (a, b) =>
      weight[a.outcome] - weight[b.outcome] ||
      inSteps(a.pondShareLeft, shares) - inSteps(b.pondShareLeft, shares) ||
      inSteps(b.lostToGround, volumes) - inSteps(a.lostToGround, volumes),
  );

function resultOf(drawn: Drawn, code: string, fault: FaultCase): FaultResult {
  const followed = follow(drawn, fault);
  const { section } = drawn;
  const ponds = pondsLeft(section, followed);
  const [worst] = ponds;
  const { outcome, reason } = judge(section, followed, ponds, fault.brings ?? 0);
  const vesselLeft = new Map(
    [...drawn.state.network.bodies.values()]
      .filter(({ body }) => body.kind === "vessel")
      .map(({ body }) => [body.id, waterVolume(body, followed.finalLevels.get(body.id) as number)] as const),
  );
  return {
    fault: code,
    title: started(fault.title),
    part: fault.part,
    place: fault.place ?? null,
    pondLeft: ponds.reduce((sum, { volume }) => sum + volume, 0),
    pondShareLeft: worst?.share ?? 1,
    pondDepthLeft: worst?.depth ?? 0,
    pondLevelLeft: worst?.level ?? null,
    vesselLeft,
    lostToGround: followed.lostToGround,
    timeToHalfPond: timeToHalf(section, followed),
    timeToPumpDry: followed.pumpsDry.size > 0 ? Math.min(...followed.pumpsDry.values()) : null,
    duration: followed.duration,
    pumpsStop: fault.run === "powerCut",
    changed: changedParts(section, fault.section),
    cut: followed.cut,
    drained: followed.drained,
    overRim: [...followed.overRim.keys()],
    outcome,
    reason: started(reason),
    events: followed.events,
    history: followed.history,
    failedAt: followed.failedAt,
  };
}
