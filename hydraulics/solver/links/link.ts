/** One way for water between two nodes, as Newton's method sees it.
 *
 * A link keeps its flow Q, positive from node `i` to node `j`. Linearised at the heads of an iterate it gives
 *     Q' = q + gi·δHi − gj·δHj          q m³/s · gi, gj m²/s, neither below 0
 * and the residual of its loss equation (m). Most links lie between both heads (gi = gj). Where water falls
 * freely it depends on the upper head alone (gj = 0) and simply arrives below: that is how a free outfall, a
 * rim, an uncovered mouth and an air point enter the same equations. Which branch of a link is at work
 * follows from the iterate, so the statuses settle inside Newton's loop, not around it.
 *
 * Stretches of full pipe, by far the most, are linearised all in one loop (`solver/fullLines.ts`); every other link
 * by itself (`BranchLink`). */
import type { PartId } from "../../document/section.ts";
import { type Loss, type LossAndSlope, lossAndSlope } from "../../elements/element.ts";

/** m²/s through what is shut: leaves a trace that keeps heads behind a shut valve defined, and is 0 in print. */
export const leak = 1e-14;
/** m³/s, more than ever leaks through what is shut, less than counts as a flow. */
export const shutTrace = 1e-10;
/** A node outside the network: the ground, the air. Its head is never asked for. */
export const outside = -1;
/** m²/s: how steeply a mouth at its edge, or a rim, answers to the level. Sets the level within 1e-7 m. */
export const steep = 1e5;

/** m/s: no water in a garden runs faster, from 200 m of fall. */
const fastest = 70;
export const mostThrough = (area: number): number => fastest * area;

/** what a law gives at an iterate, read off at once */
const pair: LossAndSlope = { loss: 0, slope: 0 };

// Fields are declared and set in the constructor: an engine defines initialised ones one by one, which for thousands of
// links took a tenth of an edit.
export abstract class Link {
  declare readonly part: PartId;
  declare readonly i: number;
  declare readonly j: number;
  /** m³/s, state */
  declare Q: number;
  /** m³/s that no step goes beyond: far from the answer a square law is nearly flat and would shoot off */
  declare most: number;

  constructor(part: PartId, i: number, j: number) {
    this.part = part;
    this.i = i;
    this.j = j;
    this.Q = 0;
    this.most = Number.POSITIVE_INFINITY;
  }

  /** The loss along the link at a flow, where the link lies between both heads now; null where it does not.
   * The line search on the content needs it. */
  lossNow(_Q: number): number | null {
    return null;
  }
}

/** A link that linearises itself, by whichever of its branches is at work. */
export abstract class BranchLink extends Link {
  declare q: number;
  declare gi: number;
  declare gj: number;
  /** m */
  declare residual: number;
  /** m³/s by which a step may go beyond `most`, to come back */
  declare over: number;

  constructor(part: PartId, i: number, j: number) {
    super(part, i, j);
    this.q = 0;
    this.gi = 0;
    this.gj = 0;
    this.residual = 0;
    this.over = 0;
  }

  /** Heads are 0 for a node outside. */
  abstract linearise(Hi: number, Hj: number): void;

  /** Takes the flow of a Newton step, with the heads it leads to. */
  accept(Q: number, _Hi: number, _Hj: number): void {
    this.Q = Q;
  }

  protected along(law: Loss, Hi: number, Hj: number): void {
    lossAndSlope(law, this.Q, pair);
    this.between(Hi, Hj, pair.loss, pair.slope);
  }

  protected between(Hi: number, Hj: number, loss: number, slope: number): void {
    const drop = Hi - Hj - loss;
    this.gi = this.gj = 1 / slope;
    this.q = this.Q + drop / slope;
    this.residual = drop;
  }

  /** Air stands in between: nothing passes, and neither head says anything of the other. */
  protected stop(): void {
    this.Q = this.q = this.gi = this.gj = this.residual = 0;
  }

  protected shut(Hi: number, Hj: number): void {
    const open = this.i !== outside && this.j !== outside;
    this.gi = this.i === outside ? 0 : leak;
    this.gj = open ? leak : 0;
    this.q = open ? leak * (Hi - Hj) : leak * Hi;
    if (this.i === outside) this.q = 0;
    this.Q = this.q;
    this.residual = 0;
  }
}
