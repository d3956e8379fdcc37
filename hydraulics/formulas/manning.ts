/** A round pipe that runs part-full at a steady fall.
 *     Q = (1/n)·A·R^(2/3)·√S        Q m³/s · A m² · R m · S fall per length · n s/m^⅓
 * n 0.010 for smooth plastic; 0.0215 for corrugated hose, ribbed inside (the middle of 0.018 to 0.025).
 * Holds for turbulent flow in a straight pipe, after the first some tens of bores.
 * Source: Manning's formula, n by FHWA HDS-5 (2001), table 4; ratios in published/partFull.test.ts.
 * Ours: from 0.938 of the bore to full the flow falls again (by 7 %), so a flow just over the full one has two depths
 * there: the lower is given, and none over the greatest, where the pipe runs full and Manning does not rate it. */
import { hydraulicRadiusShare, wetAngle, wetAreaShare } from "./partFull.ts";

export const plasticManningN = 0.01;
export const corrugatedManningN = 0.0215;

/** Flow of the full bore, m³/s. */
export const fullFlow = (D: number, fall: number, n = plasticManningN): number =>
  ((((Math.PI * D * D) / 4) * (D / 4) ** (2 / 3)) / n) * Math.sqrt(Math.max(0, fall));

/** Q/Qfull at a depth/bore. */
export const flowShare = (depthShare: number): number => shareAtAngle(wetAngle(depthShare));

/** V/Vfull at a depth/bore. */
export const velocityShare = (depthShare: number): number =>
  (4 * hydraulicRadiusShare(wetAngle(depthShare))) ** (2 / 3);

const shareAtAngle = (angle: number): number =>
  ((4 * wetAreaShare(angle)) / Math.PI) * (4 * hydraulicRadiusShare(angle)) ** (2 / 3);

/** Angle of the greatest flow: 3·θ − 5·θ·cos θ + 2·sin θ = 0, depth/bore 0.938. */
const greatestAngle = 5.278107137;
export const greatestShare = shareAtAngle(greatestAngle);

/** Depth/bore at a flow; null where the pipe cannot carry it part-full (no fall, or over 1.076 of the full flow). */
export function partFullDepth(Q: number, D: number, fall: number, n = plasticManningN): number | null {
  if (!(Q > 0)) return 0;
  const share = Q / fullFlow(D, fall, n);
  if (!(share <= greatestShare)) return null;
  let low = 0;
  let high = greatestAngle;
  // Halving: a report's figure, wanted once a pipe, and the flow is flat at the top where Newton would leave the range.
  for (let step = 0; step < 52; step++) {
    const middle = (low + high) / 2;
    if (shareAtAngle(middle) < share) low = middle;
    else high = middle;
  }
  return (1 - Math.cos(high / 2)) / 2;
}
