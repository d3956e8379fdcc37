/** Water over a body's rim (i), lost to the ground or into the body j. The level stands at the rim: the sheet
 * above it is a few millimetres, and no verdict must hang on it. */
import type { PartId } from "../../document/section.ts";
import { BranchLink, steep } from "./link.ts";

export class RimLink extends BranchLink {
  readonly rim: number;

  constructor(part: PartId, i: number, j: number, rim: number) {
    super(part, i, j);
    this.rim = rim;
  }

  linearise(Hi: number, _Hj: number): void {
    const open = Hi > this.rim;
    this.gi = open ? steep : 0;
    this.q = open ? steep * (Hi - this.rim) : 0;
    this.residual = (this.q - this.Q) / steep;
  }

  override accept(Q: number, _Hi: number, _Hj: number): void {
    this.Q = Math.max(0, Q);
  }
}
