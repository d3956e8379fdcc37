/** A small repeatable source of random numbers (mulberry32), for tests that print their seed. */
export interface Seeded {
  /** 0 ≤ n < 1 */
  next(): number;
  between(low: number, high: number): number;
  /** a whole number from low to high, both included */
  whole(low: number, high: number): number;
  chance(share: number): boolean;
  pick<T>(from: readonly T[]): T;
}

export function seeded(seed: number): Seeded {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number) => low + (high - low) * next();
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    between,
    whole,
    chance: (share) => next() < share,
    pick: <T>(from: readonly T[]) => {
      if (from.length === 0) throw new Error("nothing to pick from");
      return from[whole(0, from.length - 1)] as T;
    },
  };
}
