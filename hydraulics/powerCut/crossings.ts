/** Moments inside a step at which something changes: a mouth is uncovered, or covered up to its crest, a body is down
 * to its bed, a vent begins to spill or stops, all comes to rest. The step is taken again so that it ends there. */
import type { Keep } from "../solver/keep.ts";
import type { SpillLink } from "../solver/links/spillLink.ts";
import type { Prime } from "./engine.ts";
import { stopped } from "./pace.ts";

/** m: a located level may lie this far past its mark */
export const onEvent = 1e-7;
/** m under its bed at which a body counts as empty: no more water than that is made of nothing */
const onBed = 1e-8;
/** s: no step is shorter; rounding of the volumes would pass for a flow */
export const shortest = 2e-3;

export interface Crossing {
  /** below 0 before it, at or above 0 after it */
  readonly atStart: number;
  now(): number;
  /** by which `now` may be past it */
  readonly within: number;
  /** s within which it is looked for where `now` has a step */
  readonly span?: number;
}

export interface Watched {
  readonly primes: readonly Prime[];
  readonly beds: readonly { readonly surface: number; readonly level: number }[];
}

/** The level crossed at the smallest share of this step, for levels near straight the earliest: a mouth's edge, the
 * level up to which its line fills again, or a body's bed. What takes only what comes, at an edge or a bed, would run
 * on under it between two stages of one step. */
export function firstCrossing({ primes, beds }: Watched, before: Float64Array, after: Float64Array): Crossing | null {
  let first: Crossing | null = null;
  let earliest = Number.POSITIVE_INFINITY;
  const look = (surface: number, level: number, way: 1 | -1, within: number): void => {
    const was = before[surface] as number;
    const now = after[surface] as number;
    if (way * (was - level) >= 0 || way * (now - level) <= within) return;
    const share = (level - was) / (now - was);
    if (share >= earliest) return;
    earliest = share;
    first = { atStart: way * (was - level), now: () => way * ((after[surface] as number) - level), within };
  };
  for (const { mouth, surface, refill } of primes) {
    if (mouth.broken) look(surface, refill, 1, onEvent);
    else look(surface, mouth.mouth.edge, -1, onEvent);
  }
  for (const { surface, level } of beds) look(surface, level, -1, onBed);
  return first;
}

/** Of spills that did not run before and do now, or ran and do no more. */
export function firstSpill(spills: readonly SpillLink[], ran: readonly boolean[], span: number): Crossing | null {
  const turned = spills.flatMap((spill, s) => (spill.Q > stopped === ran[s] ? [] : [{ spill, ran: ran[s] }]));
  if (turned.length === 0) return null;
  return {
    atStart: -1,
    now: () => (turned.some(({ spill, ran }) => spill.Q > stopped !== ran) ? 1 : -1),
    within: 0,
    span,
  };
}

/** The length of step that ends on the crossing: regula falsi with bisection behind it. Leaves the system there.
 * @param whole s, of a step that was just taken and lies past it
 * @param step takes one of another length; false where it does not converge */
export function locate(crossing: Crossing, whole: number, keep: Keep, step: (h: number) => boolean): number {
  const { now, within, span = shortest } = crossing;
  let low = 0;
  let high = whole;
  let atLow = crossing.atStart;
  let atHigh = now();
  let last = whole;
  for (let k = 0; k < 60; k++) {
    const done = atHigh >= 0 && atHigh <= within;
    if (done || high - low < span || high <= shortest) break;
    let middle = k % 4 === 3 ? (low + high) / 2 : low + ((high - low) * -atLow) / (atHigh - atLow);
    middle = Math.max(shortest, Math.min(high - (high - low) * 1e-3, Math.max(low + (high - low) * 1e-3, middle)));
    keep.restore();
    if (!step(middle)) break;
    last = middle;
    const there = now();
    if (there >= 0) {
      high = middle;
      atHigh = there;
    } else {
      low = middle;
      atLow = there;
    }
  }
  if (last !== high) {
    keep.restore();
    step(high);
  }
  return high;
}
