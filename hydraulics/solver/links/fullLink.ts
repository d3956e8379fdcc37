/** A stretch of pipe that runs full: friction, and what it bears of fittings, valves and a check valve.
 *
 *     Hi − Hj = hf(Q) + r·Q·|Q| + ho          r = ΣK/(2gA²), by direction where bores change
 * Friction by an element of `elements/`; ho the opening head of a check valve that lets the flow pass. All of a
 * network's stretches are linearised in one loop: `solver/fullLines.ts`. */
import type { PartId } from "../../document/section.ts";
import type { Loss } from "../../elements/element.ts";
import { Link, leak, mostThrough } from "./link.ts";

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
export const opening = 1e-10;
/** s/m², against a check valve */
export const stopped = 1 / leak;

export class FullLink extends Link {
  declare readonly stretch: FullStretch;
  /** m³/s to begin with */
  declare readonly guess: number;

  /** Needs both ends inside the network. */
  constructor(part: PartId, i: number, j: number, stretch: FullStretch) {
    super(part, i, j);
    this.stretch = stretch;
    this.most = mostThrough(stretch.area);
    this.guess = this.Q = (stretch.oneWay || 1) * 0.3 * stretch.area;
  }

  override lossNow(Q: number): number | null {
    const { friction, forward, backward, oneWay, openingHead, shut } = this.stretch;
    if (shut) return null;
    if (oneWay !== 0 && Q * oneWay < 0) return Q * stopped;
    const open = friction.loss(Q) + (Q >= 0 ? forward : backward).loss(Q);
    return openingHead === 0 ? open : open + openingLoss(Q, oneWay, openingHead);
  }
}

/** A check valve's opening head, m, with the sign of the way it opens. */
export const openingLoss = (Q: number, oneWay: number, openingHead: number): number =>
  oneWay * openingHead * Math.min(1, Math.abs(Q) / opening);
