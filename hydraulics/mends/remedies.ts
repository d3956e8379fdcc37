/** Which remedies a finding has, in the order in which they are offered: the table. A new remedy is a file and its name
 * beside the codes that it may mend. A code without remedies needs a person (`needsAPerson.ts`). */

import { addFlush } from "./addFlush.ts";
import { addReturn } from "./addReturn.ts";
import { airGap } from "./airGap.ts";
import { balancePond } from "./balancePond.ts";
import { drawFromSurface } from "./drawFromSurface.ts";
import { flapOnLine } from "./flapOnLine.ts";
import { keepUpstream } from "./keepUpstream.ts";
import { largerPipe, largerReturns, smallerPipe } from "./largerPipe.ts";
import { lowerIntake } from "./lowerIntake.ts";
import { lowerLine, lowerLinesOfPump } from "./lowerLine.ts";
import { lowerMouth } from "./lowerMouth.ts";
import { lowerOutlet } from "./lowerOutlet.ts";
import { lowerPump, lowerSuctionMouth } from "./lowerPump.ts";
import { moreFall } from "./moreFall.ts";
import { moveInside } from "./moveInside.ts";
import { moveTee } from "./moveTee.ts";
import { openThrottle } from "./openThrottle.ts";
import { otherFormula } from "./otherFormula.ts";
import { raiseSill, sillIntoPond } from "./otherSill.ts";
import { overHighPoint } from "./overHighPoint.ts";
import { lowerPond, raiseRim } from "./pondRoom.ts";
import { raiseIntake } from "./raiseIntake.ts";
import { raiseVentEnd } from "./raiseVentEnd.ts";
import type { Remedy } from "./remedy.ts";
import { shutEnd } from "./shutEnd.ts";
import { shutFlush, shutFlushOf } from "./shutFlush.ts";
import { slowPump } from "./slowPump.ts";
import { smoothPipe } from "./smoothPipe.ts";
import { stopLoss } from "./stopLoss.ts";
import { takeAway } from "./takeAway.ts";
import { tallerVessel } from "./tallerVessel.ts";
import { throttleLine } from "./throttleLine.ts";
import { ventAtTop } from "./ventAtTop.ts";
import { ventOnLine } from "./ventOnLine.ts";
import { ventPastTee } from "./ventPastTee.ts";
import { ventsOfVessel } from "./ventsOfVessel.ts";
import { openVent, widenVent } from "./widenVent.ts";

const holdsVessel: readonly Remedy[] = [
  shutFlushOf,
  ventsOfVessel,
  ventAtTop,
  ventPastTee,
  overHighPoint,
  airGap,
  drawFromSurface,
];
const carriesMore: readonly Remedy[] = [largerReturns, lowerMouth, lowerOutlet, addReturn, slowPump];

export const remedies: ReadonlyMap<string, readonly Remedy[]> = new Map([
  ["vessel-drains", holdsVessel],
  ["held-by-moving-part", holdsVessel],
  ["overtops-running", carriesMore],
  ["return-margin-low", carriesMore],
  ["return-smaller-than-supply", [largerReturns]],
  ["vent-too-small", [openVent, widenVent]],
  ["vent-marginal", [openVent, widenVent]],
  ["vent-below-water", [moveTee, overHighPoint, airGap]],
  ["vent-below-rim", [raiseVentEnd]],
  ["vent-loses-water", [raiseVentEnd, moveTee]],
  ["may-siphon", [drawFromSurface, ventOnLine, largerPipe]],
  ["pond-over-rim-in-cut", [lowerPond, raiseRim]],
  ["pond-overflow-near", [lowerPond, raiseRim]],
  ["overtops-in-cut", [largerReturns, lowerMouth, addReturn, tallerVessel, keepUpstream(holdsVessel)]],
  ["pond-rises", [balancePond]],
  ["pond-falls", [stopLoss, balancePond]],
  ["open-end-loses-water", [shutFlush, shutEnd]],
  ["sill-loses-water", [raiseSill, sillIntoPond]],
  ["flush-open", [shutFlush]],
  ["pump-dry", [lowerIntake, lowerSuctionMouth]],
  ["intake-low", [raiseIntake]],
  ["pump-shut-off", [openThrottle, lowerLinesOfPump]],
  ["pump-off-curve", [throttleLine]],
  ["pump-passed-backwards", [flapOnLine]],
  ["pump-must-be-primed", [lowerPump]],
  ["column-parts", [ventOnLine, lowerLine]],
  ["column-parts-in-cut", [ventOnLine, lowerLine]],
  ["suction-low", [ventOnLine, lowerLine]],
  ["no-return", [addReturn]],
  ["cut-not-settled", [shutFlush, shutFlushOf, shutEnd]],
  ["loose-parts", [takeAway]],
  ["mouth-outside-body", [moveInside]],
  ["corrugated-manning", [smoothPipe]],
  ["pump-dry-on-start", [lowerIntake]],
  ["over-rim-on-restart", [lowerPond, raiseRim, largerReturns, lowerMouth]],
  ["pump-snatches-air", [slowPump, throttleLine]],
  ["air-gulping", [largerPipe]],
  ["part-full-deep", [moreFall, largerPipe]],
  ["small-bore-inlet", [largerPipe]],
  ["pipe-fast", [largerPipe]],
  ["pipe-slow", [smallerPipe]],
  ["formula-range", [otherFormula]],
  ["no-flush", [addFlush]],
]);
