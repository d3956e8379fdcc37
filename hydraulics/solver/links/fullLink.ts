/** A stretch of pipe that runs full: friction, and what it bears of fittings, valves and a check valve.
 *
 *     Hi − Hj = hf(Q) + r·Q·|Q| + ho          r = ΣK/(2gA²), by direction where bores change
 * Friction by an element of `elements/`; ho the opening head of a check valve that lets the flow pass. */
import type { PartId } from "../../document/section.ts";
import type { Loss } from "../../elements/element.ts";
import { Link, leak, mostThrough, shutTrace } from "./link.ts";

export interface FullStretch {
  readonly friction: Loss;
  /** s²/m⁵, towards j and towards i */
  readonly forward: Loss;
  readonly backward: Loss;
  /** a hand valve at 0, or two check valves against each other */
  readonly shut: boolean;
  /** the way a sound check valve lets pass: +1 towards j, −1 towards i, 0 both */
  readonly oneWay: -1 | 0 | 1;
  readonly openingHead: number;
  /** m², for a first guess */
  readonly area: number;
}

/** m³/s over which a check valve's opening head builds up, so that the law has no step. */
const opening = 1e-10;
const stopped = 1 / leak;

export class FullLink extends Link {
  readonly stretch: FullStretch;

  constructor(part: PartId, i: number, j: number, stretch: FullStretch) {
    super(part, i, j);
    this.stretch = stretch;
    this.most = mostThrough(stretch.area);
    this.Q = this.firstGuess();
  }

  firstGuess(): number {
    return (this.stretch.oneWay || 1) * 0.3 * this.stretch.area;
  }

  linearise(Hi: number, Hj: number): void {
    if (this.stretch.shut) return this.shut(Hi, Hj);
    this.between(Hi, Hj, this.loss(this.Q), this.slope(this.Q));
  }

  override lossNow(Q: number): number | null {
    return this.stretch.shut ? null : this.loss(Q);
  }

  private loss(Q: number): number {
    const { friction, forward, backward, oneWay, openingHead } = this.stretch;
    if (oneWay !== 0 && Q * oneWay < 0) return Q * stopped;
    const open = friction.loss(Q) + (Q >= 0 ? forward : backward).loss(Q);
    return openingHead === 0 ? open : open + oneWay * openingHead * Math.min(1, Math.abs(Q) / opening);
  }

  private slope(Q: number): number {
    const { friction, forward, backward, oneWay, openingHead } = this.stretch;
    if (oneWay !== 0 && Q * oneWay < 0) return stopped;
    const open = friction.slope(Q) + (Q >= 0 ? forward : backward).slope(Q);
    return openingHead !== 0 && Math.abs(Q) < opening ? open + openingHead / opening : open;
  }

  /** Against a check valve the law is all but vertical: a step that lands there is set back to where it begins. */
  override accept(Q: number, _Hi: number, _Hj: number): void {
    const { oneWay } = this.stretch;
    this.Q = oneWay !== 0 && Q * oneWay < -shutTrace ? -oneWay * shutTrace : Q;
  }
}
