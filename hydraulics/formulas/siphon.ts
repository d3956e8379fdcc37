/** A full line from a body over a crest to a lower place.
 *     Q: ΔH = (f·L/D + ΣK)·V²/2g · crest: h = level − z_crest − (f·L₁/D + ΣK₁ + 1)·V²/2g
 *     h m of water above the axis, below 0 is suction · L₁, ΣK₁ up to the crest
 * Holds while the column stays together: design notes, section 8, take 7 m of suction as the limit.
 * Source: Bernoulli; published/siphon.test.ts. */
import { g } from "./gravity.ts";

/** m/s in a full line of constant factors (`lossSum` = f·L/D + ΣK, exit included). */
export const fullLineVelocity = (drop: number, lossSum: number, gravity = g): number =>
  Math.sqrt((2 * gravity * Math.max(0, drop)) / lossSum);

/** m of water at the axis of the crest, below 0 under suction. */
export const crestPressureHead = (
  level: number,
  crestLevel: number,
  velocity: number,
  lossSumToCrest: number,
  gravity = g,
): number => level - crestLevel - ((1 + lossSumToCrest) * velocity * velocity) / (2 * gravity);
