/** The findings of a drawing, worst first: a table of rules. A new finding is a rule and a line here; each code has
 * a drawing that raises it and a neighbour that does not in `test/scenarios/findings.test.ts`. */

import { started } from "../powerCut/words.ts";
import { cutNotSettled } from "./cutNotSettled.ts";
import { noFlush, turnoverOff, upflowFast, vesselSmall } from "./filter.ts";
import type { Finding, Severity } from "./finding.ts";
import { formulaRange, formulasDiffer } from "./formulas.ts";
import { intakeLow } from "./intakeLow.ts";
import { judgesDiffer } from "./judgesDiffer.ts";
import { openEndLosesWater, ventLosesWater } from "./losesWater.ts";
import { mediaBypassed } from "./mediaBypassed.ts";
import { looseParts, mouthOutsideBody, nothingToSolve } from "./missing.ts";
import { notConverged } from "./notConverged.ts";
import { overflowsInCut } from "./overflowsInCut.ts";
import { overtopsRunning } from "./overtopsRunning.ts";
import { pondShifts } from "./pondShifts.ts";
import { pumpDry } from "./pumpDry.ts";
import { outletNarrow, passedBackwards, pumpOffCurve, standInCurve, wattsTooLow } from "./pumps.ts";
import { noReturn, returnMarginLow, returnSmallerThanSupply } from "./returnMargin.ts";
import { airGulping, corrugatedManning, maySiphon, partFullDeep, smallBoreInlet } from "./returnsAndAir.ts";
import type { Entry, Looked } from "./rule.ts";
import { overRimOnRestart, pumpDryOnStart } from "./starts.ts";
import { mustBePrimed, suction } from "./suction.ts";
import { pipeFast, pipeSlow } from "./velocities.ts";
import { ventLow, ventSmall } from "./vents.ts";
import { vesselDrains } from "./vesselDrains.ts";

export type { Looked };

/** Among findings of one severity this order is kept: the gravest first. */
export const table: readonly Entry[] = [
  { codes: ["not-converged", "cut-not-converged", "cut-loses-count"], rule: notConverged },
  { codes: ["judges-differ"], rule: judgesDiffer },
  { codes: ["vessel-drains", "held-by-moving-part"], rule: vesselDrains },
  { codes: ["overtops-running"], rule: overtopsRunning },
  { codes: ["pond-over-rim-in-cut", "pond-overflow-near", "overtops-in-cut"], rule: overflowsInCut },
  { codes: ["over-rim-on-restart"], rule: overRimOnRestart },
  { codes: ["vent-loses-water"], rule: ventLosesWater },
  { codes: ["open-end-loses-water", "flush-open", "sill-loses-water"], rule: openEndLosesWater },
  { codes: ["pond-falls", "pond-rises"], rule: pondShifts },
  { codes: ["pump-dry", "pump-snatches-air"], rule: pumpDry },
  { codes: ["pump-dry-on-start"], rule: pumpDryOnStart },
  { codes: ["column-parts", "suction-low", "column-parts-in-cut"], rule: suction },
  { codes: ["return-margin-low"], rule: returnMarginLow },
  { codes: ["return-smaller-than-supply"], rule: returnSmallerThanSupply },
  { codes: ["vent-below-water", "vent-below-rim"], rule: ventLow },
  { codes: ["vent-marginal", "vent-too-small"], rule: ventSmall },
  { codes: ["may-siphon"], rule: maySiphon },
  { codes: ["cut-not-settled"], rule: cutNotSettled },
  { codes: ["pump-must-be-primed"], rule: mustBePrimed },
  { codes: ["pump-off-curve", "pump-shut-off"], rule: pumpOffCurve },
  { codes: ["pump-passed-backwards"], rule: passedBackwards },
  { codes: ["watts-too-low"], rule: wattsTooLow },
  { codes: ["outlet-narrow"], rule: outletNarrow },
  { codes: ["media-bypassed"], rule: mediaBypassed },
  { codes: ["air-gulping"], rule: airGulping },
  { codes: ["part-full-deep"], rule: partFullDeep },
  { codes: ["small-bore-inlet"], rule: smallBoreInlet },
  { codes: ["pipe-fast"], rule: pipeFast },
  { codes: ["pipe-slow"], rule: pipeSlow },
  { codes: ["formulas-differ"], rule: formulasDiffer },
  { codes: ["formula-range"], rule: formulaRange },
  { codes: ["upflow-fast"], rule: upflowFast },
  { codes: ["intake-low"], rule: intakeLow },
  { codes: ["nothing-to-solve"], rule: nothingToSolve },
  { codes: ["loose-parts"], rule: looseParts },
  { codes: ["mouth-outside-body"], rule: mouthOutsideBody },
  { codes: ["no-return"], rule: noReturn },
  { codes: ["no-flush"], rule: noFlush },
  { codes: ["vessel-small"], rule: vesselSmall },
  { codes: ["turnover-off"], rule: turnoverOff },
  { codes: ["stand-in-curve"], rule: standInCurve },
  { codes: ["corrugated-manning"], rule: corrugatedManning },
];

const weight: Record<Severity, number> = { failure: 0, warning: 1, advice: 2 };

export function findingsOf(looked: Looked): readonly Finding[] {
  return table
    .flatMap(({ rule }) => [...rule(looked)])
    .map((finding) => ({ ...finding, text: started(finding.text) }))
    .sort((a, b) => weight[a.severity] - weight[b.severity]);
}
