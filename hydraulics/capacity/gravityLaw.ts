/** What level a gravity pipe needs at its mouth for a flow, and what it carries at a level.
 *
 *        level ~~~~┐                       A gravity pipe is not counted on to pull. The level needed is the
 *      ║ mouth ════╗   vertex              greatest of
 *      ║           ╚══════════╗            - inlet control at its mouth (HDS-5 at a side mouth, weir or orifice
 *      ║                      ║ falling      at one that faces up, orifice at one that faces down),
 *                             ║ leg        - at each vertex and at the outlet: the floor there plus all losses
 *                             ╨ outlet       from the mouth to there at full bore (the vertex's own bend not yet).
 *
 * Floor: invert + Ec(Q), the energy of critical flow; at an end in air that faces up or down z + V²/2g; at a
 * covered outlet the receiving level + V²/2g. So a falling leg never helps, and a mouth into deep water counts
 * as it should. Split in two, because only the last depends on the receiving level:
 *
 *     level needed(Q) = max( A(Q), receiving level + B(Q) )          Q ≥ 0, A and B rise with Q
 *
 * Sources: design notes, section 6; FHWA HDS-5 for inlet control; critical flow as in open-channel texts.
 * Full-bore friction in a part-full run overstates the loss a little; Manning's rating stands beside it. */

import type { Loss } from "../elements/element.ts";
import { criticalEnergy, criticalEnergySlope } from "../formulas/criticalFlow.ts";
import { inletHead, inletHeadSlope } from "../formulas/culvertInlet.ts";
import { g } from "../formulas/gravity.ts";
import { orificeHead, orificeHeadSlope } from "../formulas/orifice.ts";
import { upMouthHead, upMouthHeadSlope } from "../formulas/standpipe.ts";
import type { Control } from "../solver/running.ts";

export interface Floor {
  /** invert, or the end itself where `jet` */
  readonly level: number;
  /** an end in air facing up or down: the floor is level + V²/2g, not level + Ec */
  readonly jet: boolean;
  /** m of pipe and s²/m⁵ of fittings between the mouth and here */
  readonly length: number;
  readonly square: number;
  readonly what: "route" | "outlet";
}

export interface GravityPath {
  readonly bore: number;
  /** the mouth's axis (side) or end (up, down) in a body; null at a tee */
  readonly mouth: { readonly kind: "side" | "up" | "down"; readonly level: number } | null;
  readonly floors: readonly Floor[];
  /** whole way, exit included where it ends in a body */
  readonly length: number;
  readonly square: number;
  /** m of pipe and s²/m⁵ of fittings between the mouth and a place, told by its m along the pipe: what lies there itself
   * counts, a bend there does not yet */
  readonly upTo: (at: number) => { readonly length: number; readonly square: number };
  /** a check valve's opening head */
  readonly openingHead: number;
  /** friction of one metre */
  readonly perMetre: Loss;
  readonly receives: boolean;
}

/** m within which two places are one */
const here = 1e-6;

/** m³/s under which nothing counts as carried */
const least = 1e-14;

export class GravityLaw {
  readonly path: GravityPath;
  /** the level at which the path begins to run, receiving level aside */
  readonly sill: number;
  private readonly area: number;
  private readonly velocity: number;
  slope = 0;
  control: Control = "none";

  constructor(path: GravityPath) {
    this.path = path;
    this.area = (Math.PI * path.bore ** 2) / 4;
    this.velocity = 1 / (2 * g * this.area ** 2);
    let sill = path.mouth
      ? path.mouth.level - (path.mouth.kind === "side" ? path.bore / 2 : 0)
      : Number.NEGATIVE_INFINITY;
    for (const floor of path.floors) sill = Math.max(sill, floor.level);
    this.sill = sill;
  }

  /** A(Q); leaves its slope and what controls in `slope` and `control`. Needs Q > 0. */
  free(Q: number): number {
    const { mouth, bore, floors, perMetre, openingHead } = this.path;
    let level = Number.NEGATIVE_INFINITY;
    this.slope = 0;
    this.control = "inlet";
    if (mouth?.kind === "side") {
      level = mouth.level - bore / 2 + inletHead(Q, bore);
      this.slope = inletHeadSlope(Q, bore);
    } else if (mouth?.kind === "up") {
      level = mouth.level + upMouthHead(Q, bore);
      this.slope = upMouthHeadSlope(Q, bore);
    } else if (mouth) {
      level = mouth.level + orificeHead(Q, this.area);
      this.slope = orificeHeadSlope(Q, this.area);
    }
    if (floors.length === 0) return level;
    const friction = perMetre.loss(Q);
    const energy = criticalEnergy(Q, bore);
    const head = this.velocity * Q * Q;
    let at: Floor | null = null;
    for (const floor of floors) {
      const there =
        floor.level + (floor.jet ? head : energy) + friction * floor.length + floor.square * Q * Q + openingHead;
      if (there > level) {
        level = there;
        at = floor;
      }
    }
    if (at) {
      const own = at.jet ? 2 * this.velocity * Q : criticalEnergySlope(Q, bore);
      this.slope = own + perMetre.slope(Q) * at.length + 2 * at.square * Q;
      this.control = at.what;
    }
    return level;
  }

  /** B(Q): losses of the whole way, to be added to the receiving level. */
  through(Q: number): number {
    return this.path.perMetre.loss(Q) * this.path.length + this.path.square * Q * Q + this.path.openingHead;
  }

  throughSlope(Q: number): number {
    return this.path.perMetre.slope(Q) * this.path.length + 2 * this.path.square * Q;
  }

  levelNeeded(Q: number, receiving: number): number {
    const free = this.free(Q);
    return this.path.receives ? Math.max(free, receiving + this.through(Q)) : free;
  }

  /** The flow carried at a level: the inverse of `levelNeeded`, to the last digits; 0 at and under the sill.
   * Level over where it begins is nearly a power of the flow, so Newton's method goes by their logarithms, between
   * bounds that close in. */
  flowAt(level: number, receiving: number): number {
    const begins = this.path.receives ? Math.max(this.sill, receiving) : this.sill;
    const wanted = level - begins;
    if (!(wanted > 0) || this.levelNeeded(least, receiving) >= level) return 0;
    let low = least;
    let high = Number.POSITIVE_INFINITY;
    // As through a hole of that bore.
    let flow = Math.max(10 * least, this.area * Math.sqrt(g * wanted));
    for (let step = 0; step < 200; step++) {
      const free = this.free(flow);
      const drowned = this.path.receives ? receiving + this.through(flow) : Number.NEGATIVE_INFINITY;
      const over = Math.max(free, drowned) - begins;
      if (over < wanted) low = flow;
      else high = flow;
      const slope = drowned > free ? this.throughSlope(flow) : this.slope;
      const change = over > 0 ? (Math.log(wanted / over) * over) / (slope * flow) : Number.NaN;
      // The steps' lengths square from one to the next: after one so short, rounding is all that is left.
      if (Math.abs(change) < 1e-7) return flow * (1 + change);
      let next = flow * Math.exp(Math.max(-5, Math.min(5, change)));
      if (!(next > low && next < high)) next = high < Number.POSITIVE_INFINITY ? Math.sqrt(low * high) : 8 * flow;
      if (Math.abs(next - flow) <= 1e-15 * flow || high <= low * (1 + 1e-15)) break;
      flow = next;
    }
    return flow;
  }

  /** m of total head that water has at a place of the path, as the floors further down hold it.
   * @param at m along the pipe */
  headAlong(at: number, Q: number, receiving: number): number {
    const { floors, perMetre, length, square, bore, receives, upTo } = this.path;
    const friction = perMetre.loss(Q);
    const energy = criticalEnergy(Q, bore);
    const { length: from, square: passed } = upTo(at);
    let head = receives ? receiving + friction * (length - from) + (square - passed) * Q * Q : Number.NEGATIVE_INFINITY;
    for (const floor of floors) {
      if (floor.length < from - here) continue;
      const own = floor.jet ? this.velocityHead(Q) : energy;
      head = Math.max(
        head,
        floor.level + own + friction * (floor.length - from) + Math.max(0, floor.square - passed) * Q * Q,
      );
    }
    return head;
  }

  velocityHead(Q: number): number {
    return this.velocity * Q * Q;
  }

  /** What controls at a flow. */
  controlAt(Q: number, receiving: number): Control {
    if (!(Q > 0)) return "none";
    const free = this.free(Q);
    return this.path.receives && receiving + this.through(Q) > free ? "outlet" : this.control;
  }
}
