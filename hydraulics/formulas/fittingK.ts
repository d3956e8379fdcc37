/** Loss coefficients of fittings, on the velocity head of the pipe that bears them.
 *     hm = K·V²/2g        K dimensionless
 * Holds for turbulent flow in pipe of the fitting's own bore; makers and tables differ by a factor of two and more.
 * Source: design notes, section 3; the stopped pump from memory.
 * Set against public tables in published/minorLoss.test.ts. */
import type { FittingType } from "../document/section.ts";

export const fittingK: Record<Exclude<FittingType, "other">, number> = {
  elbow90: 0.9,
  elbow45: 0.4,
  swept90: 0.45,
  teeRun: 0.4,
  teeBranch: 1.2,
  strainer: 1.0,
};

/** Ends of pipes: into a wall, out of open water (an end facing up or down), and out. */
export const entranceFlushK = 0.5;
export const entranceProjectingK = 0.8;
export const exitK = 1.0;
export const entranceK = (mouth: "side" | "up" | "down"): number =>
  mouth === "side" ? entranceFlushK : entranceProjectingK;

export const swingCheckValveK = 2.0;

/** A stopped pump passed backwards, on its outlet bore. From memory. */
export const stoppedPumpK = 10;

/** A bend drawn in a route: K 0 at 0°, 0.4 at 45°, 0.9 at 90°, straight lines between (design notes, section 3).
 * Beyond 90° the second line goes on (1.9 at 180°, a hairpin: two right-angle bends are 1.8). */
export function bendK(turnDegrees: number): number {
  const turn = Math.abs(turnDegrees);
  return turn <= 45 ? (0.4 * turn) / 45 : 0.4 + (0.5 * (turn - 45)) / 45;
}

/** Sudden enlargement from bore D1 to D2, on the velocity in D1.
 *     K = (1 − (D1/D2)²)²        D1, D2 m
 * Holds for turbulent flow and a square step. Source: Borda-Carnot. 0 where D2 is not the larger. */
export function suddenEnlargementK(D1: number, D2: number): number {
  return D2 > D1 ? (1 - (D1 / D2) ** 2) ** 2 : 0;
}

/** Sudden contraction from bore D1 to D2, on the velocity in D2.
 *     K = 0.5·(1 − (D2/D1)²)        D1, D2 m
 * Holds for turbulent flow and a square edge. Source: the usual approximation, design
 * notes, section 3. 0 where D1 is not the larger. */
export function suddenContractionK(D1: number, D2: number): number {
  return D1 > D2 ? 0.5 * (1 - (D2 / D1) ** 2) : 0;
}
