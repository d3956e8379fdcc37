/** What a vent passes: its opening and the friction of its riser.
 *     Ae = (πd²/4) / √(1/(0.6·o)² + 0.03·(z_end − z_tee)/d)
 *     water out: Q = Ae·√(2g·(y − z_end))      air in: Qa = Ae·(1 − 0.05·s)·√(2·ρw·g·s/ρa), s = z_tee − y
 * d, z, y, s m · o fraction open · Q, Qa m³/s · ρw of water at the site's temperature, ρa of air, kg/m³. The bracket
 * stands for the air's expansion; s is taken at most 4.8 m.
 * Cd 0.6 of a sharp opening, friction factor 0.03 of the riser.
 * Holds for s up to 4.8 m (near there air comes in as fast as sound, at 0.53 of the outside pressure, and no faster)
 * and for openings over some 3 mm wide, under which surface tension counts.
 * Source: design notes, section 7: orifice and friction laws with round figures; common practice, no source for
 * the rule that air at least as much as the water breaks a siphon; air through openings in published/air.test.ts.
 * Needs d > 0, 0 ≤ o ≤ 1, z_end ≥ z_tee. */
import { airDensity } from "./air.ts";
import { g } from "./gravity.ts";

const Cd = 0.6;
const riserFriction = 0.03;
export const greatestSuction = 4.8;

/** Ae, m² */
export function ventArea(bore: number, open: number, riser: number): number {
  if (!(open > 0)) return 0;
  return (Math.PI * bore ** 2) / 4 / Math.sqrt(1 / (Cd * open) ** 2 + (riserFriction * Math.max(0, riser)) / bore);
}

/** Qa, m³/s of air drawn at a suction of `suction` m of water.
 * @param water @param air kg/m³ */
export function ventAirFlow(suction: number, area: number, water: number, air = airDensity): number {
  const s = Math.min(Math.max(0, suction), greatestSuction);
  return area * (1 - 0.05 * s) * Math.sqrt((2 * water * g * s) / air);
}

export interface Suction {
  /** m³/s of water that flows past */
  readonly passing: number;
  /** m of water */
  readonly suction: number;
  /** of the water, kg/m³ */
  readonly density: number;
}

/** The bore that draws at least as much air as water flows past; null without suction or with the vent shut. */
export function ampleBore({ passing, suction, density }: Suction, open: number, riser: number): number | null {
  if (!(suction > 0) || !(open > 0)) return null;
  const drawn = (bore: number) => ventAirFlow(suction, ventArea(bore, open, riser), density);
  let high = 0.001;
  while (drawn(high) < passing) {
    high *= 2;
    if (high > 100) return null;
  }
  let low = 0;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (drawn(middle) < passing) low = middle;
    else high = middle;
  }
  return high;
}
