/** Flow through a sharp-edged opening.
 *     Q = Cd·A·√(2gh)        Q m³/s · A m² · h m of head difference · Cd 0.6
 * Holds for an opening well covered, more than about 3 mm wide (surface tension below that).
 * Source: Torricelli's law with a discharge coefficient; published/orificeAndWeir.test.ts.
 * Ours: the sign follows the head. */
import { g } from "./gravity.ts";

export const sharpOrificeCd = 0.6;

/** m of head difference that drives Q, signed. */
export function orificeHead(Q: number, A: number, Cd = sharpOrificeCd): number {
  const V = Q / (Cd * A);
  return (V * Math.abs(V)) / (2 * g);
}

/** Derivative of the head by the flow, s/m²; 0 at rest. */
export const orificeHeadSlope = (Q: number, A: number, Cd = sharpOrificeCd): number =>
  Math.abs(Q) / (g * (Cd * A) ** 2);

/** m³/s at a head difference, signed. */
export const orificeFlow = (head: number, A: number, Cd = sharpOrificeCd): number =>
  Math.sign(head) * Cd * A * Math.sqrt(2 * g * Math.abs(head));
