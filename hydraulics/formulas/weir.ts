/** Flow over a level sill, sides square.
 *     sharp crest: Q = Cd·(2/3)·√(2g)·b·h^1.5, Cd 0.6 · broad crest: Q = 1.705·b·h^1.5
 *     Q m³/s · b m width · h m, the water over the crest upstream
 * Holds for a sheet thicker than about 5 mm that is not drowned from below. Source: Poleni's law and
 * the broad crest's critical flow with the design notes' factors (section 6); published/orificeAndWeir.test.ts.
 * Ours: no flow at h ≤ 0; next to Q = 0 the head's curve, steep without limit there,
 * gives way to the chord of its first nanometre. */
import { g } from "./gravity.ts";

export type Crest = "sharp" | "broad";

export const sharpCrestCd = 0.6;
export const broadCrestFactor = 1.705;
const firstHead = 1e-9;

/** Q/(b·h^1.5), m^½/s. */
export const weirFactor = (crest: Crest): number => (crest === "broad" ? broadCrestFactor : sharpWeirFactor());
export const sharpWeirFactor = (Cd = sharpCrestCd): number => Cd * (2 / 3) * Math.sqrt(2 * g);

export function weirFlow(h: number, b: number, crest: Crest = "sharp"): number {
  return h > 0 ? weirFactor(crest) * b * h * Math.sqrt(h) : 0;
}

/** dQ/dh, m²/s; 0 at and below the crest. */
export function weirFlowSlope(h: number, b: number, crest: Crest = "sharp"): number {
  return h > 0 ? 1.5 * weirFactor(crest) * b * Math.sqrt(h) : 0;
}

/** h for a flow, 0 without one. */
export function weirHead(Q: number, b: number, crest: Crest = "sharp"): number {
  if (!(Q > 0)) return 0;
  const h = Math.cbrt((Q / (weirFactor(crest) * b)) ** 2);
  return h > firstHead ? h : Q * weirHeadSlope(0, b, crest);
}

/** dh/dQ, s/m²: finite at rest by the chord. */
export function weirHeadSlope(Q: number, b: number, crest: Crest = "sharp"): number {
  const h = Q > 0 ? Math.cbrt((Q / (weirFactor(crest) * b)) ** 2) : 0;
  return h > firstHead ? 1 / weirFlowSlope(h, b, crest) : firstHead / weirFlow(firstHead, b, crest);
}
