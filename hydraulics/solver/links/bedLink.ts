/** The media between two openings of a vessel (i below, j above): Ergun's law for the upward flow.
 * Only what lies under the vessel's surface counts, so the bed is cut at the level of the iterate. */
import type { PartId } from "../../document/section.ts";
import { BranchLink } from "./link.ts";

export interface BedLayerLaw {
  readonly from: number;
  readonly to: number;
  /** per metre: s/m³ and s²/m⁶ of flow Q */
  readonly linear: number;
  readonly square: number;
}

/** s/m², where no stone lies in between */
const open = 1e-5;

export class BedLink extends BranchLink {
  readonly surface: number;
  readonly layers: readonly BedLayerLaw[];
  private linear = open;
  private square = 0;

  /** @param surface the node whose head is the vessel's level */
  constructor(part: PartId, i: number, j: number, surface: number, layers: readonly BedLayerLaw[]) {
    super(part, i, j);
    this.surface = surface;
    this.layers = layers;
  }

  /** Sets the law for a level; called before each iteration. */
  cutAt(level: number): void {
    this.linear = open;
    this.square = 0;
    for (const { from, to, linear, square } of this.layers) {
      const depth = Math.min(to, level) - from;
      if (depth <= 0) continue;
      this.linear += linear * depth;
      this.square += square * depth;
    }
  }

  linearise(Hi: number, Hj: number): void {
    this.between(Hi, Hj, this.lossNow(this.Q), this.linear + 2 * this.square * Math.abs(this.Q));
  }

  override lossNow(Q: number): number {
    return (this.linear + this.square * Math.abs(Q)) * Q;
  }
}
