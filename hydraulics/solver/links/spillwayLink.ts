/** A sill between two bodies, or to the ground (j outside): weir flow over the higher of the crest and the
 * level beyond, either way between bodies. */
import type { PartId } from "../../document/section.ts";
import { type Crest, weirFlow, weirFlowSlope } from "../../formulas/weir.ts";
import { Link, outside } from "./link.ts";

export interface Sill {
  readonly crestLevel: number;
  readonly width: number;
  readonly crest: Crest;
}

export class SpillwayLink extends Link {
  readonly sill: Sill;

  constructor(part: PartId, i: number, j: number, sill: Sill) {
    super(part, i, j);
    this.sill = sill;
  }

  linearise(Hi: number, Hj: number): void {
    const { crestLevel, width, crest } = this.sill;
    const beyond = this.j === outside ? Number.NEGATIVE_INFINITY : Hj;
    const back = Hj > Hi && this.j !== outside;
    const upper = back ? Hj : Hi;
    const lower = Math.max(crestLevel, back ? Hi : beyond);
    const drowned = lower > crestLevel;
    const flow = weirFlow(upper - lower, width, crest);
    const slope = weirFlowSlope(upper - lower, width, crest);
    this.q = back ? -flow : flow;
    this.gi = back && !drowned ? 0 : slope;
    this.gj = this.j === outside || (!back && !drowned) ? 0 : slope;
    // A nodal law: its flow follows from the heads, so what is left is a flow, shown as the head it stands for.
    this.residual = slope > 0 ? (this.q - this.Q) / slope : this.q - this.Q;
  }
}
