/** Water in time: levels as states, the network solved at every instant, events located.
 *
 * Quasi-steady: the inertia of the short columns is neglected (design notes, section 8). A step (`stages.ts`) is of
 * second order and L-stable, so levels that meet over a wide pipe settle instead of chattering. Volumes, not levels,
 * are advanced, so water is conserved to rounding.
 *
 * Regimes change at events: a mouth is uncovered, or covered again up to its crest. The step is shortened until
 * it ends on the event (`crossings.ts`). Two events of one mouth inside one step would be missed; steps are bounded by
 * how far the levels move, so that would take two crossings within a few millimetres. They are bounded as well by how
 * much of a flow they take away (`pace.ts`), so that the moments at which flows stop, and rest itself, are found. */
import { bottomOf } from "../document/geometry.ts";
import type { PartId } from "../document/section.ts";
import type { Network } from "../network/network.ts";
import { Keep } from "../solver/keep.ts";
import type { MouthLink } from "../solver/links/mouthLink.ts";
import { SpillLink } from "../solver/links/spillLink.ts";
import type { System } from "../solver/system.ts";
import { firstCrossing, firstSpill, locate, onEvent, shortest, type Watched } from "./crossings.ts";
import { Pace, stopped, unrest } from "./pace.ts";
import { Stages } from "./stages.ts";

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
  /** s that have passed before this run: its moments count from 0, but need be no finer than the whole's */
  readonly after?: number;
}

/** s: a level may creep on at nearly 0.1 mm an hour when the run ends, so the end must not be hours wide */
const longest = 1800;
const mostSteps = 6000;
/** trial steps that may fail to settle in one run: each takes the solver's full patience, and a state that goes on
 * failing is not known better for it */
const mostFailures = 60;
/** m over its edge at which a mouth counts as uncovered from the start */
export const atEdge = 1e-5;
/** after so many breaks a mouth trickles at its edge instead of breaking again */
const mostBreaks = 12;
/** s: the first step after a change */
const afterChange = 1;
/** s: rest that holds for so long is rest */
const holds = 1;
/** s: what rounding may take off a time that is a sum of steps */
const lastDigits = 1e-6;
/** ln of what a step takes of a fading flow: what is aimed at, and from where on the step is taken again */
const fades = 0.45;
const fadesAtMost = 0.9;
/** of the time that has passed: a fading flow makes no step finer, since no moment need be known better */
const finest = 5e-4;
/** ln of the unrest: how far past it the moment of rest may lie */
const atRestWithin = 1e-3;

export function runInTime(network: Network, system: System, primes: readonly Prime[], options: RunOptions): Run {
  const { tolerance = 2e-4, refine = 1, after = 0 } = options;
  const bodies = [...network.bodies.values()];
  const spills = network.links.filter((link) => link instanceof SpillLink);
  const beds = bodies.map(({ body, surface }) => ({ surface, level: bottomOf(body) }));
  const watched: Watched = { primes, beds };
  for (const prime of primes) {
    if (options.keepPrimes) continue;
    prime.mouth.limited = prime.isLimited;
    prime.mouth.broken = !prime.isLimited && (system.head[prime.surface] as number) <= prime.mouth.mouth.edge + atEdge;
  }

  const stages = new Stages(network, system);
  const startWater = stages.water();
  const step = (h: number): boolean => stages.step(h);
  let time = 0;
  let failedAt: readonly PartId[] | null = null;
  const moments: Moment[] = [];
  const occurrences: Occurrence[] = [];
  const keep = new Keep(system);
  const levelsNow = (): Float64Array => Float64Array.from(bodies, ({ surface }) => system.head[surface] as number);
  const note = () =>
    moments.push({ time, levels: levelsNow(), flows: Float64Array.from(network.links, (link) => link.Q) });

  // What was poured since may cover a mouth up to its crest at once.
  if (options.keepPrimes) settlePrimes();
  // The state at the start: levels held for an instant, so that its flows are known.
  keep.save();
  const known = step(shortest);
  if (!known) keep.restore();
  note();
  const pace = new Pace(network, stages);
  // Where that did not settle, the loop finds out with longer steps whether it can be done at all.
  if (known) keep.restoreHeads();
  else pace.unrestWas = Number.POSITIVE_INFINITY;

  let h = known && pace.wasQuiet ? holds : (options.firstStep ?? 0.2) * refine;
  let resume = 0;
  let quietSince = known && pace.wasQuiet ? 0 : Number.POSITIVE_INFINITY;
  let settled = false;
  let steps = 0;
  let failures = 0;
  for (; steps < mostSteps && time < options.until; steps++) {
    h = Math.min(h, options.until - time);
    keep.save();
    const ran = spills.map(({ Q }) => Q > stopped);
    const ok = step(h);
    if (!ok) failures++;
    const error = ok ? stages.error(h) : Number.POSITIVE_INFINITY;
    const faded = ok ? pace.faded() : 0;
    const allowed = tolerance * refine * refine;
    const fine = Math.max(shortest, finest * refine * (after + time));
    const hasty = faded > fadesAtMost * refine && h > fine;
    if (h > shortest && failures < mostFailures && (!ok || error > allowed || hasty)) {
      const byError = ok ? Math.max(0.2, 0.85 * Math.sqrt(allowed / error)) : 0.25;
      const byFading = hasty ? Math.max(0.2, (fades * refine) / faded, fine / h) : 1;
      keep.restore();
      h = Math.max(shortest, h * Math.min(byError, byFading));
      continue;
    }
    if (!ok) {
      failedAt = stages.failedAt;
      break;
    }
    // Does a mouth change inside this step?
    let used = h;
    // The first found need not be the first to come: what stops on the way bends the others' levels.
    for (let left = primes.length + beds.length + spills.length; left > 0; left--) {
      const crossing = firstCrossing(watched, keep.headOf, system.head) ?? firstSpill(spills, ran, fine);
      if (!crossing || used <= shortest) break;
      used = locate(crossing, used, keep, step);
    }
    let rests = false;
    if (!pace.wasQuiet && used === h && resume === 0 && unrest(stages) <= 1) {
      const now = () => -Math.log(Math.max(1e-300, unrest(stages)));
      if (h > shortest)
        used = locate({ atStart: -Math.log(pace.unrestWas), now, within: atRestWithin }, used, keep, step);
      rests = true;
    }
    time += used;
    stages.take(used);
    note();
    const changed = settlePrimes();
    if (options.stopWhen?.(time, levelsNow())) break;
    if (changed || unrest(stages) > 1) quietSince = Number.POSITIVE_INFINITY;
    else if (rests || time - quietSince >= holds - lastDigits) {
      settled = true;
      break;
    } else quietSince = Math.min(quietSince, time);
    pace.keep();
    if (changed) {
      // The flows that begin now are known after an instant.
      resume = Math.min(h, afterChange * refine);
      h = shortest;
    } else if (resume > 0) {
      h = resume;
      resume = 0;
    } else {
      const byError = error > 0 ? Math.max(0.3, 0.85 * Math.sqrt(allowed / error)) : 4;
      const byFading = faded > 0 ? Math.max((fades * refine) / faded, fine / h) : 4;
      h = Math.min(h * Math.min(4, byError, byFading), longest * refine);
    }
    h = Math.max(h, pace.wasQuiet && resume === 0 ? holds : shortest);
  }

  return {
    moments,
    occurrences,
    lost: stages.lost,
    through: stages.through,
    settled,
    steps,
    failedAt,
    balanceError: startWater > 0 ? Math.abs(startWater - stages.water() - stages.lost) / startWater : 0,
  };

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
