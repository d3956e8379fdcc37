/** A sill between two bodies, or to the ground (j outside): weir flow over the higher of the crest and the
 * level beyond. One way, as drawn: the body it leads to never spills back over it. */
import type { PartId } from "../../document/section.ts";
import { type Crest, weirFlow, weirFlowSlope } from "../../formulas/weir.ts";
import { BranchLink, outside } from "./link.ts";

export interface Sill {
  readonly crestLevel: number;
  readonly width: number;
  readonly crest: Crest;
}

export class SpillwayLink extends BranchLink {
  readonly sill: Sill;

  constructor(part: PartId, i: number, j: number, sill: Sill) {
    super(part, i, j);
    this.sill = sill;
  }

  linearise(Hi: number, Hj: number): void {
    const { crestLevel, width, crest } = this.sill;
    const beyond = this.j === outside ? Number.NEGATIVE_INFINITY : Hj;
    const lower = Math.max(crestLevel, beyond);
    const slope = weirFlowSlope(Hi - lower, width, crest);
    this.q = weirFlow(Hi - lower, width, crest);
    this.gi = slope;
    this.gj = lower > crestLevel ? slope : 0;
    // A nodal law: its flow follows from the heads, so what is left is a flow, shown as the head it stands for.
    this.residual = slope > 0 ? (this.q - this.Q) / slope : this.q - this.Q;
  }
}
