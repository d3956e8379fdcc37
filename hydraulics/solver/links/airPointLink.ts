/** A place in a line where air comes in freely (an ample vent, a branch that ends in air): the line is cut
 * there, and either side goes on only while it stands above the level of the tee.
 *
 *     Q > 0:  Hi = max(tee + V²/2g, Hj)          Q < 0:  Hj = max(tee + V²/2g, Hi)          else at rest
 * V is the velocity of the flow that arrives: more than passes the cut where a leg on the upper side takes some.
 * The lower side's head is its own affair (its leg is partly empty), so no suction is passed on; where the
 * lower side stands above the tee the cut closes by itself and the line is whole again. */
import type { PartId } from "../../document/section.ts";
import type { Loss } from "../../elements/element.ts";
import { velocityHead } from "../../formulas/totalHead.ts";
import { BranchLink } from "./link.ts";

/** s/m², the loss of the closed cut: nothing but a slope for Newton's method. */
const seamless = 1e-5;

export class AirPointLink extends BranchLink {
  readonly tee: number;
  /** the velocity head of the flow that arrives, V²/2g */
  readonly velocityHead: Loss;
  state: "rest" | "free" | "whole" = "rest";
  /** m/s, set before each iteration: how fast water comes to either side, where another leg takes a part of it or it
   * comes by a pipe of another bore; null where all that passes here arrives by this one */
  arrivingAtI: number | null = null;
  arrivingAtJ: number | null = null;

  constructor(part: PartId, i: number, j: number, tee: number, velocityHead: Loss) {
    super(part, i, j);
    this.tee = tee;
    this.velocityHead = velocityHead;
  }

  linearise(Hi: number, Hj: number): void {
    const forward = this.state === "rest" ? Hi >= Hj : this.Q > 0 || (this.Q === 0 && Hi >= Hj);
    const upper = forward ? Hi : Hj;
    const lower = forward ? Hj : Hi;
    const flow = Math.abs(this.Q);
    const speed = forward ? this.arrivingAtI : this.arrivingAtJ;
    const level = this.tee + (speed === null ? this.velocityHead.loss(flow) : velocityHead(speed));
    if (lower > level) {
      this.state = "whole";
      return this.between(Hi, Hj, seamless * this.Q, seamless);
    }
    if (upper <= (speed === null ? this.tee : level) && flow <= 1e-12) {
      this.state = "rest";
      return this.stop();
    }
    this.state = "free";
    const slope = (speed === null ? this.velocityHead.slope(flow) : 0) + seamless;
    const drop = upper - level - seamless * flow;
    const q = flow + drop / slope;
    this.q = forward ? q : -q;
    this.gi = forward ? 1 / slope : 0;
    this.gj = forward ? 0 : 1 / slope;
    this.residual = drop;
  }

  override accept(Q: number, Hi: number, Hj: number): void {
    if (this.state !== "free" || Q * this.Q >= 0) {
      this.Q = Q;
      return;
    }
    // The flow would turn: it stops here, and the next iterate sees from the heads which side is higher.
    const upper = this.Q > 0 ? Hi : Hj;
    const speed = (this.Q > 0 ? this.arrivingAtI : this.arrivingAtJ) ?? 0;
    this.Q = upper > this.tee + velocityHead(speed) ? 0.2 * this.Q : 0;
    if (this.Q === 0) this.state = "rest";
  }
}
