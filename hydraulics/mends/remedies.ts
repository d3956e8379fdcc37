/** Which remedies a finding has, in the order in which they are offered: the table. A new remedy is a file and its name
 * beside the codes that it may mend. A code without remedies needs a person. */
import { addFlush } from "./addFlush.ts";
import { airGap } from "./airGap.ts";
import { balancePond } from "./balancePond.ts";
import { drawFromSurface } from "./drawFromSurface.ts";
import { largerPipe, largerReturns, smallerPipe } from "./largerPipe.ts";
import { lowerIntake } from "./lowerIntake.ts";
import { lowerMouth } from "./lowerMouth.ts";
import { moveTee } from "./moveTee.ts";
import { otherFormula } from "./otherFormula.ts";
import { overHighPoint } from "./overHighPoint.ts";
import { lowerPond, raiseRim } from "./pondRoom.ts";
import { raiseVentEnd } from "./raiseVentEnd.ts";
import type { Remedy } from "./remedy.ts";
import { shutFlush, shutFlushOf } from "./shutFlush.ts";
import { slowPump } from "./slowPump.ts";
import { stopLoss } from "./stopLoss.ts";
import { ventAtTop } from "./ventAtTop.ts";
import { ventsOfVessel } from "./ventsOfVessel.ts";
import { openVent, widenVent } from "./widenVent.ts";

const holdsVessel: readonly Remedy[] = [shutFlushOf, ventsOfVessel, ventAtTop, overHighPoint, airGap, drawFromSurface];
const carriesMore: readonly Remedy[] = [largerReturns, lowerMouth, slowPump];

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
  ["may-siphon", [drawFromSurface, largerPipe]],
  ["pond-over-rim-in-cut", [lowerPond, raiseRim]],
  ["pond-overflow-near", [lowerPond, raiseRim]],
  ["overtops-in-cut", [largerReturns, lowerMouth]],
  ["pond-rises", [balancePond]],
  ["pond-falls", [stopLoss, balancePond]],
  ["open-end-loses-water", [shutFlush]],
  ["flush-open", [shutFlush]],
  ["pump-dry", [lowerIntake]],
  ["pump-dry-on-start", [lowerIntake]],
  ["over-rim-on-restart", [lowerPond, raiseRim, largerReturns, lowerMouth]],
  ["pump-snatches-air", [slowPump]],
  ["air-gulping", [largerPipe]],
  ["part-full-deep", [largerPipe]],
  ["small-bore-inlet", [largerPipe]],
  ["pipe-fast", [largerPipe]],
  ["pipe-slow", [smallerPipe]],
  ["formula-range", [otherFormula]],
  ["no-flush", [addFlush]],
]);
