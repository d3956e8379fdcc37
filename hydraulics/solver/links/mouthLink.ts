/** The end of a full line in a body of water (i: the head in the body at the mouth, j: the head in the line).
 *
 *              body                     Taking in:    Hi = Hj + Kin·V²/2g, where the mouth is covered
 *        ~~~~~~~~~~~~~~~~~ level                      (level over its edge: a side mouth's invert, an end itself)
 *                 ╔════════ axis        Giving out:   Hj = max(axis, Hi) + Kout·V²/2g
 *        edge ····╚════════ line        At rest:      anything between; dry, air stands in it
 *
 * While the level is found as an unknown, a line that draws more than enters holds the body at the mouth's
 * edge: the level is the edge and the flow what comes in (`limited`). In a simulation the edge is an event
 * instead: the mouth takes in until it is uncovered, and is then `broken`. An end in air over the ground is a
 * mouth with nothing on its body side: it only gives out. */
import type { PartId } from "../../document/section.ts";
import type { Loss } from "../../elements/element.ts";
import { BranchLink, outside, steep } from "./link.ts";

export interface Mouth {
  readonly axis: number;
  readonly edge: number;
  readonly taking: Loss;
  readonly giving: Loss;
}

type State = "rest" | "takes" | "edge" | "falls" | "drowned";

export class MouthLink extends BranchLink {
  declare readonly mouth: Mouth;
  declare limited: boolean;
  /** the body's level is given, and the mouth never draws it down to its edge */
  declare levelGiven: boolean;
  declare broken: boolean;
  declare state: State;

  constructor(part: PartId, i: number, j: number, mouth: Mouth) {
    super(part, i, j);
    this.mouth = mouth;
    this.limited = true;
    this.levelGiven = false;
    this.broken = false;
    this.state = "rest";
  }

  /** A first guess: so much taken in, m³/s over 0. */
  begin(Q: number): void {
    this.Q = Q;
    this.state = "takes";
  }

  linearise(inBody: number, Hj: number): void {
    const Hi = this.i === outside ? Number.NEGATIVE_INFINITY : inBody;
    this.state = this.nextState(Hi, Hj);
    const { taking, giving, axis, edge } = this.mouth;
    switch (this.state) {
      case "takes":
        return this.along(taking, Hi, Hj);
      case "drowned":
        return this.along(giving, Hi, Hj);
      case "falls": {
        const slope = giving.slope(this.Q);
        const drop = axis - Hj - giving.loss(this.Q);
        this.gi = 0;
        this.gj = 1 / slope;
        this.q = this.Q + drop / slope;
        this.residual = drop;
        return;
      }
      case "edge":
        this.gi = steep;
        this.gj = 0;
        this.q = steep * (Hi - edge);
        this.residual = (this.q - this.Q) / steep;
        return;
      default:
        return Hi > edge ? this.shut(inBody, Hj) : this.stop();
    }
  }

  override lossNow(Q: number): number | null {
    if (this.state === "takes") return this.mouth.taking.loss(Q);
    return this.state === "drowned" ? this.mouth.giving.loss(Q) : null;
  }

  /** An end that cannot take in stops where a step would turn its flow. */
  override accept(Q: number, _Hi: number, _Hj: number): void {
    this.Q = Q > 0 && (this.broken || this.i === outside) ? 0 : Q;
  }

  private nextState(Hi: number, Hj: number): State {
    const { axis, edge, taking } = this.mouth;
    const covered = !this.broken && (Hi > edge || !this.limited);
    const moving = this.state !== "rest";
    if (moving && this.Q > 0 && !this.broken) {
      if (!this.limited) return "takes";
      // What the level would have to be: for the line's pull, and for the edge.
      return Hj + taking.loss(this.Q) >= edge + this.Q / steep ? "takes" : "edge";
    }
    if (moving && this.Q < 0) {
      if (Hj > Math.max(axis, Hi) || this.state === "falls" || this.state === "drowned")
        return Hi >= axis ? "drowned" : "falls";
    }
    if (Hj > Math.max(axis, Hi)) return Hi >= axis ? "drowned" : "falls";
    // A line that pulls below the edge would draw a level that is sought far past it in one step: a mouth that opens
    // begins at its edge, with what comes in.
    const opensAtEdge = this.limited && !this.levelGiven && Hj < edge;
    if (covered && Hj < Hi) return opensAtEdge ? "edge" : "takes";
    return "rest";
  }
}
