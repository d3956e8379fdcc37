/** A vent spilling (i: its tee): y = z_end + r·Q², r = 1/(2g·Ae²), y the head less the velocity head that arrives.
 * Nothing passes while the water stands below the open end; air comes in elsewhere (`airPointLink`). Nor where the
 * water falls on past the cut of a vent that is credited: y is at the tee then, never over an open end. Asked of the
 * heads alone, a bare valve, whose end is its tee, would open and shut with the last digits of the velocity head. */
import type { PartId } from "../../document/section.ts";
import type { Loss } from "../../elements/element.ts";
import type { AirPointLink } from "./airPointLink.ts";
import { BranchLink } from "./link.ts";

export class SpillLink extends BranchLink {
  readonly endLevel: number;
  readonly passage: Loss;
  /** the cut that the vent makes where it is credited */
  private readonly cut: AirPointLink | null;
  /** m, set before each iteration */
  velocityHead = 0;

  constructor(part: PartId, i: number, j: number, endLevel: number, passage: Loss, cut: AirPointLink | null) {
    super(part, i, j);
    this.endLevel = endLevel;
    this.passage = passage;
    this.cut = cut;
  }

  linearise(Hi: number, _Hj: number): void {
    const over = Hi - this.velocityHead - this.endLevel;
    if (this.isCut || (this.Q <= 0 && over <= 0)) {
      this.Q = this.q = this.gi = this.residual = 0;
      return;
    }
    const slope = this.Q > 0 ? this.passage.slope(this.Q) : this.passage.slope(Math.sqrt(over / this.passage.loss(1)));
    const drop = over - this.passage.loss(Math.max(0, this.Q));
    this.gi = 1 / slope;
    this.q = Math.max(0, this.Q) + drop / slope;
    this.residual = drop;
  }

  override accept(Q: number, Hi: number, _Hj: number): void {
    if (this.isCut) {
      this.Q = 0;
      return;
    }
    // Never through zero while there is water over the end: the root law would send it back and forth.
    const open = Hi - this.velocityHead > this.endLevel;
    this.Q = open ? Math.max(Q, 0.2 * this.Q) : Math.max(0, Q > 0 && Q < 1e-12 ? 0 : Q);
  }

  /** Whether the water comes from this side and falls on past an open cut. The cut is linearised before, and accepts
   * its flow before: it is added to the network with its pipe, and vents come after the pipes. */
  private get isCut(): boolean {
    return this.cut !== null && this.cut.state === "free" && this.cut.Q > 0;
  }
}
