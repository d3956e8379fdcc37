/** A stretch of pipe that runs full: friction, and what it bears of fittings, valves and a check valve.
 *
 *     Hi − Hj = hf(Q) + r·Q·|Q| + ho          r = ΣK/(2gA²), by direction where bores change
 * Friction by an element of `elements/`; ho the opening head of a check valve that lets the flow pass. */
import type { PartId } from "../../document/section.ts";
import { type Loss, type LossAndSlope, lossAndSlope } from "../../elements/element.ts";
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
/** what friction and fittings give at an iterate */
const rubbed: LossAndSlope = { loss: 0, slope: 0 };
const fitted: LossAndSlope = { loss: 0, slope: 0 };

export class FullLink extends Link {
  readonly stretch: FullStretch;
  /** m³/s to begin with; NaN from the first step on */
  private guess: number;

  constructor(part: PartId, i: number, j: number, stretch: FullStretch) {
    super(part, i, j);
    this.stretch = stretch;
    this.most = mostThrough(stretch.area);
    this.guess = this.Q = (stretch.oneWay || 1) * 0.3 * stretch.area;
  }

  linearise(Hi: number, Hj: number): void {
    const { friction, forward, backward, oneWay, openingHead, shut } = this.stretch;
    const { Q } = this;
    if (shut) return this.shut(Hi, Hj);
    if (oneWay !== 0 && Q * oneWay < 0) return this.between(Hi, Hj, Q * stopped, stopped);
    lossAndSlope(friction, Q, rubbed);
    lossAndSlope(Q >= 0 ? forward : backward, Q, fitted);
    let loss = rubbed.loss + fitted.loss;
    let slope = rubbed.slope + fitted.slope;
    if (openingHead !== 0) {
      loss += openingLoss(Q, oneWay, openingHead);
      if (Math.abs(Q) < opening) slope += openingHead / opening;
    }
    // The chord of a first guess: which way the water goes is not known yet, and a tangent would lean to one side.
    if (Q === this.guess) slope = loss / Q;
    this.between(Hi, Hj, loss, slope);
  }

  override lossNow(Q: number): number | null {
    const { friction, forward, backward, oneWay, openingHead, shut } = this.stretch;
    if (shut) return null;
    if (oneWay !== 0 && Q * oneWay < 0) return Q * stopped;
    const open = friction.loss(Q) + (Q >= 0 ? forward : backward).loss(Q);
    return openingHead === 0 ? open : open + openingLoss(Q, oneWay, openingHead);
  }

  /** Against a check valve the law is all but vertical: a step that lands there is set back to where it begins. */
  override accept(Q: number, _Hi: number, _Hj: number): void {
    const { oneWay } = this.stretch;
    // Heads by chords are a fair answer, flows are not: under a square law the flow that goes with a chord's head
    // lies at the root of guess and chord's flow.
    const next = this.Q === this.guess ? Math.sign(Q) * Math.sqrt(Math.abs(Q * this.guess)) : Q;
    this.guess = Number.NaN;
    this.Q = oneWay !== 0 && next * oneWay < -shutTrace ? -oneWay * shutTrace : next;
  }
}

/** A check valve's opening head, m, with the sign of the way it opens. */
const openingLoss = (Q: number, oneWay: number, openingHead: number): number =>
  oneWay * openingHead * Math.min(1, Math.abs(Q) / opening);
