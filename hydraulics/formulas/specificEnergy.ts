/** Energy above the bed in a rectangular channel, and the two depths that share one.
 *     E = y + q²/(2g·y²)        E, y m · q m²/s, flow per width
 * Holds for a small bed slope. Source: V. T. Chow,
 * Open-Channel Hydraulics (1959), chapter 3; published/criticalFlow.test.ts.
 * Ours: the cubic y³ − E·y² + q²/2g = 0 by cosines, both positive roots at once. */
import { g } from "./gravity.ts";

export const specificEnergy = (q: number, depth: number): number => depth + (q * q) / (2 * g * depth * depth);

/** The tranquil and the shooting depth; null where the energy is under the critical one, 1.5·yc. `headTerm` = q²/2g. */
export function alternateDepths(energy: number, headTerm: number): { tranquil: number; shooting: number } | null {
  const cosine = 1 - (13.5 * headTerm) / energy ** 3;
  if (!(cosine >= -1)) return null;
  const angle = Math.acos(cosine) / 3;
  const root = (turn: number) => (energy / 3) * (1 + 2 * Math.cos(angle + turn));
  return { tranquil: root(0), shooting: root((4 * Math.PI) / 3) };
}
