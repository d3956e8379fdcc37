/** What of a round pipe is wet at a depth.
 *     θ = 2·acos(1 − 2y/D),  A = D²/8·(θ − sin θ),  P = D·θ/2,  R = A/P,  T = D·sin(θ/2)
 *     y, D, P, R, T m · A m² · θ the angle at the centre, 0 to 2π
 * Holds for 0 ≤ y ≤ D. Source: V. T. Chow, Open-Channel Hydraulics (1959), appendix A; published/partFull.test.ts. */

export const wetAngle = (depthShare: number): number => 2 * Math.acos(Math.min(1, Math.max(-1, 1 - 2 * depthShare)));

/** A/D² */
export const wetAreaShare = (angle: number): number => (angle - Math.sin(angle)) / 8;

/** R/D, a quarter when full; 0 where dry. */
export const hydraulicRadiusShare = (angle: number): number => (angle > 0 ? (1 - Math.sin(angle) / angle) / 4 : 0);

/** T/D */
export const surfaceWidthShare = (angle: number): number => Math.sin(angle / 2);
