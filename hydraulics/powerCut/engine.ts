/** Water in time: levels as states, the network solved at every instant, events located.
 *
 * Quasi-steady: the inertia of the short columns is neglected (design notes, section 8). A step is Alexander's
 * two-stage diagonally implicit Runge-Kutta method, γ = 1 − 1/√2 (SIAM J. Numer. Anal. 14 (1977); from memory):
 * second order and L-stable, so levels that meet over a wide pipe settle instead of chattering. Each stage is
 * the network's own equations with the bodies' storage added, solved by the same Newton method. Volumes, not
 * levels, are advanced, so water is conserved to rounding.
 *
 * Regimes change at events: a mouth is uncovered, or covered again up to its crest. The step is shortened until
 * it ends on the event. Two events of one mouth inside one step would be missed; steps are bounded by how far
 * the levels move, so that would take two crossings within a few millimetres. */
import { bottomOf } from "../document/geometry.ts";
import type { PartId } from "../document/section.ts";
import { must } from "../must.ts";
import type { Network } from "../network/network.ts";
import { Keep } from "../solver/keep.ts";
import { type Link, outside } from "../solver/links/link.ts";
import type { MouthLink } from "../solver/links/mouthLink.ts";
import type { System } from "../solver/system.ts";

/** A full line's opening in a body and what breaks and mends it. */
export interface Prime {
  readonly mouth: MouthLink;
  readonly part: PartId;
  readonly body: PartId;
  readonly surface: number;
  /** over this level a broken line fills again */
  readonly refill: number;
  /** a running pump's intake: never broken, it takes what comes */
  readonly isLimited: boolean;
  /** times it was broken */
  breaks: number;
}

export interface Moment {
  readonly time: number;
  readonly levels: Float64Array;
  readonly flows: Float64Array;
}

export interface Occurrence {
  readonly time: number;
  readonly what: "uncovered" | "covered";
  readonly prime: Prime;
}

export interface Run {
  readonly moments: readonly Moment[];
  readonly occurrences: readonly Occurrence[];
  /** m³ over the ground */
  readonly lost: number;
  /** m³ through each link, from i to j */
  readonly through: Float64Array;
  readonly settled: boolean;
  readonly steps: number;
  readonly failedAt: readonly PartId[] | null;
  readonly balanceError: number;
}

export interface RunOptions {
  readonly until: number;
  /** m, bound on the estimated error of a step; halving the step halves its root */
  readonly tolerance?: number;
  /** looked at after each step; true ends the run */
  readonly stopWhen?: (time: number, levels: Float64Array) => boolean;
  readonly firstStep?: number;
  /** lines stay broken or full as they are, instead of being judged by the levels at the start */
  readonly keepPrimes?: boolean;
  /** every step this much shorter than the error allows: for the test that halves it */
  readonly refine?: number;
}

const gamma = 1 - Math.SQRT1_2;
/** m/s: 0.1 mm an hour */
const restRate = 1e-4 / 3600;
/** m³/s to the ground */
const restLoss = 1e-8;
/** s: a level may creep on at nearly 0.1 mm an hour when the run ends, so the end must not be hours wide */
const longest = 1800;
const mostSteps = 6000;
/** m: a located event may lie this far past its level */
const onEvent = 1e-7;
/** m over its edge at which a mouth counts as uncovered from the start */
const atEdge = 1e-5;
/** s: no step is shorter; rounding of the volumes would pass for a flow */
const shortest = 2e-3;
/** s: where a step so short does not settle, shortening it helps no more, and the solver is asked for patience */
const patientUnder = 0.01;
/** m under its bed at which a body counts as empty: no more water than that is made of nothing */
const onBed = 1e-8;
/** after so many breaks a mouth trickles at its edge instead of breaking again */
const mostBreaks = 12;

export function runInTime(network: Network, system: System, primes: readonly Prime[], options: RunOptions): Run {
  const tolerance = options.tolerance ?? 2e-4;
  const refine = options.refine ?? 1;
  const bodies = [...network.bodies.values()];
  const count = bodies.length;
  const stores = bodies.map(({ surface }) => {
    const store = system.nodes[surface]?.store;
    must(store, "a body keeps its water in a store");
    return store;
  });
  const surfaces = bodies.map(({ surface }) => surface);
  const toGround = network.links.filter((link) => link.j === outside || link.i === outside);
  const groundFlow = (): number => {
    let flow = 0;
    for (const link of toGround) {
      if (link.j === outside && link.Q > 0) flow += link.Q;
      if (link.i === outside && link.Q < 0) flow -= link.Q;
    }
    return flow;
  };
  const volumes = new Float64Array(count);
  const rates1 = new Float64Array(count);
  const rates2 = new Float64Array(count);
  const levelsNow = (): Float64Array => Float64Array.from(surfaces, (surface) => system.head[surface] as number);
  for (let b = 0; b < count; b++)
    volumes[b] = (stores[b] as (typeof stores)[number]).volume(system.head[surfaces[b] as number] as number);
  const startWater = volumes.reduce((sum, volume) => sum + volume, 0);

  const beds = bodies.map(({ body, surface }) => ({ surface, level: bottomOf(body) }));
  for (const prime of primes) {
    if (options.keepPrimes) continue;
    prime.mouth.limited = prime.isLimited;
    prime.mouth.broken = !prime.isLimited && (system.head[prime.surface] as number) <= prime.mouth.mouth.edge + atEdge;
  }

  let time = 0;
  let lost = 0;
  const through = new Float64Array(network.links.length);
  const flows1 = new Float64Array(network.links.length);
  let failedAt: readonly PartId[] | null = null;
  const moments: Moment[] = [];
  const occurrences: Occurrence[] = [];
  const keep = new Keep(system);

  /** One stage: storage over `dt` from `base`. */
  const stage = (base: Float64Array, dt: number): boolean => {
    system.timeStep = dt;
    for (let b = 0; b < count; b++) system.base[surfaces[b] as number] = base[b] as number;
    const solved = system.solve(dt <= patientUnder);
    if (!solved.converged) failedAt = solved.parts;
    return solved.converged;
  };
  const base2 = new Float64Array(count);
  let ground1 = 0;
  let ground2 = 0;
  /** A whole step of `h` from where the system stands; levels afterwards in `system.head`. */
  const step = (h: number): boolean => {
    if (!stage(volumes, gamma * h)) return false;
    ground1 = groundFlow();
    for (let e = 0; e < flows1.length; e++) flows1[e] = (network.links[e] as Link).Q;
    for (let b = 0; b < count; b++) {
      const volume = (stores[b] as (typeof stores)[number]).volume(system.head[surfaces[b] as number] as number);
      rates1[b] = (volume - (volumes[b] as number)) / (gamma * h);
      base2[b] = (volumes[b] as number) + (1 - gamma) * h * (rates1[b] as number);
    }
    if (!stage(base2, gamma * h)) return false;
    ground2 = groundFlow();
    for (let b = 0; b < count; b++) {
      const volume = (stores[b] as (typeof stores)[number]).volume(system.head[surfaces[b] as number] as number);
      rates2[b] = (volume - (base2[b] as number)) / (gamma * h);
    }
    return true;
  };
  const errorOf = (h: number): number => {
    let error = 0;
    for (let b = 0; b < count; b++) {
      const area = (stores[b] as (typeof stores)[number]).area(system.head[surfaces[b] as number] as number);
      error = Math.max(error, (Math.abs((rates2[b] as number) - (rates1[b] as number)) * gamma * h) / area);
    }
    return error;
  };
  const fastest = (): number => {
    let rate = 0;
    for (let b = 0; b < count; b++) {
      const area = (stores[b] as (typeof stores)[number]).area(system.head[surfaces[b] as number] as number);
      rate = Math.max(rate, Math.abs(rates2[b] as number) / area);
    }
    return rate;
  };
  const note = () =>
    moments.push({ time, levels: levelsNow(), flows: Float64Array.from(network.links, (link) => link.Q) });

  // The state at the start: levels held for an instant, so that its flows are known.
  keep.save();
  if (step(shortest)) {
    note();
    keep.restoreHeads();
  } else {
    // The loop finds out with longer steps whether it can be done at all.
    failedAt = null;
    keep.restore();
    note();
  }

  let h = (options.firstStep ?? 0.2) * refine;
  let settled = false;
  let steps = 0;
  for (; steps < mostSteps && time < options.until && failedAt === null; steps++) {
    h = Math.min(h, options.until - time);
    keep.save();
    const ok = step(h);
    const error = ok ? errorOf(h) : Number.POSITIVE_INFINITY;
    const allowed = tolerance * refine * refine;
    if (!ok || error > allowed) {
      if (h > shortest) {
        failedAt = null;
        keep.restore();
        h = Math.max(shortest, h * (ok ? Math.max(0.2, 0.85 * Math.sqrt(allowed / error)) : 0.25));
        continue;
      }
      if (!ok) break;
    }
    // Does a mouth change inside this step?
    const before = keep.headOf;
    let used = h;
    // The first found need not be the first to come: what stops on the way bends the others' levels.
    for (let left = primes.length + beds.length; left > 0; left--) {
      const crossing = firstCrossing(primes, beds, before, system.head);
      if (!crossing || used <= shortest) break;
      used = locate(crossing, used);
    }
    time += used;
    for (let b = 0; b < count; b++) {
      volumes[b] =
        (volumes[b] as number) + used * ((1 - gamma) * (rates1[b] as number) + gamma * (rates2[b] as number));
    }
    lost += used * ((1 - gamma) * ground1 + gamma * ground2);
    for (let e = 0; e < through.length; e++) {
      through[e] =
        (through[e] as number) + used * ((1 - gamma) * (flows1[e] as number) + gamma * (network.links[e] as Link).Q);
    }
    note();
    const changed = settlePrimes();
    if (options.stopWhen?.(time, levelsNow())) break;
    const quiet = fastest() <= restRate && (1 - gamma) * ground1 + gamma * ground2 <= restLoss;
    if (quiet && !changed && used > 1) {
      settled = true;
      break;
    }
    const growth = error > 0 ? 0.85 * Math.sqrt(allowed / error) : 4;
    h = changed ? Math.min(h, 1 * refine) : Math.min(h * Math.min(4, Math.max(0.3, growth)), longest * refine);
    h = Math.max(h, shortest);
  }

  const endWater = volumes.reduce((sum, volume) => sum + volume, 0);
  return {
    moments,
    occurrences,
    lost,
    through,
    settled,
    steps,
    failedAt,
    balanceError: startWater > 0 ? Math.abs(startWater - endWater - lost) / startWater : 0,
  };

  /** The length of step that ends on the crossing: regula falsi (Illinois) with bisection behind it. */
  function locate(crossing: Crossing, whole: number): number {
    const { surface, level, way, within } = crossing;
    const miss = () => way * ((system.head[surface] as number) - level);
    let low = 0;
    let high = whole;
    let atLow = way * ((keep.headOf[surface] as number) - level);
    let atHigh = miss();
    let last = whole;
    for (let k = 0; k < 60; k++) {
      // `way` is +1 for rising: below 0 before, at or above 0 after.
      const done = atHigh >= 0 && atHigh <= within;
      if (done || high - low < shortest || high <= shortest) break;
      let middle = k % 4 === 3 ? (low + high) / 2 : low + ((high - low) * -atLow) / (atHigh - atLow);
      middle = Math.max(shortest, Math.min(high - (high - low) * 1e-3, Math.max(low + (high - low) * 1e-3, middle)));
      keep.restore();
      if (!step(middle)) break;
      last = middle;
      const now = miss();
      if (now >= 0) {
        high = middle;
        atHigh = now;
      } else {
        low = middle;
        atLow = now;
      }
    }
    if (last !== high) {
      keep.restore();
      step(high);
    }
    return high;
  }

  /** Breaks mouths that are uncovered, fills lines that are covered up to their crest. */
  function settlePrimes(): boolean {
    let changed = false;
    for (const prime of primes) {
      if (prime.isLimited) continue;
      const level = system.head[prime.surface] as number;
      const { mouth } = prime;
      if (!mouth.broken && !mouth.limited && level <= mouth.mouth.edge + onEvent) {
        prime.breaks++;
        // A line that breaks over and over is a trickle: let it take what comes at its edge.
        if (prime.breaks > mostBreaks) mouth.limited = true;
        else {
          occurrences.push({ time, what: "uncovered", prime });
          mouth.broken = true;
          changed = true;
        }
      } else if (mouth.broken && level >= prime.refill) {
        occurrences.push({ time, what: "covered", prime });
        mouth.broken = false;
        changed = true;
      }
    }
    return changed;
  }
}

interface Crossing {
  readonly surface: number;
  readonly level: number;
  /** 1 rising, −1 falling */
  readonly way: 1 | -1;
  /** m past its level at which the step may end */
  readonly within: number;
}

/** The level crossed at the smallest share of this step, for levels near straight the earliest: a mouth's edge, the
 * level up to which its line fills again, or a body's bed. What takes only what comes, at an edge or a bed, would run
 * on under it between two stages of one step. */
function firstCrossing(
  primes: readonly Prime[],
  beds: readonly { readonly surface: number; readonly level: number }[],
  before: Float64Array,
  after: Float64Array,
): Crossing | null {
  let first: Crossing | null = null;
  let earliest = Number.POSITIVE_INFINITY;
  const look = (surface: number, level: number, way: 1 | -1, within: number): void => {
    const was = before[surface] as number;
    const now = after[surface] as number;
    if (way * (was - level) >= 0 || way * (now - level) <= within) return;
    const share = (level - was) / (now - was);
    if (share >= earliest) return;
    earliest = share;
    first = { surface, level, way, within };
  };
  for (const { mouth, surface, refill } of primes) {
    if (mouth.broken) look(surface, refill, 1, onEvent);
    else look(surface, mouth.mouth.edge, -1, onEvent);
  }
  for (const { surface, level } of beds) look(surface, level, -1, onBed);
  return first;
}
