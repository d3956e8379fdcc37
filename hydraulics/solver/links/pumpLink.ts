/** A pump between its inlet (i) and its outlet (j).
 *
 * Running: Hj − Hi = H(Q) of its curve, and no flow backwards (Q ≥ 0; below it the law turns all but
 * vertical). Stopped: both ways, with its stopped loss on the outlet bore. */
import type { PartId } from "../../document/section.ts";
import type { Loss } from "../../elements/element.ts";
import { BranchLink, shutTrace } from "./link.ts";

/** s/m², where a curve is flat: Newton's slope only, the law is untouched. */
const flattest = 1;
/** m²/s backwards through a running pump: a hundred times what leaks through what is shut. Between the two no flow says
 * what the head is, and it is then the pump's greatest. Little enough for the drip to keep a tank behind it full. */
const slip = 1e-12;
/** m³/s that slip through against more head than there is; less than counts as a flow */
const mostSlip = 9e-10;

export class PumpLink extends BranchLink {
  /** loss −H(Q) while running, the stopped loss otherwise */
  readonly law: Loss;
  readonly running: boolean;
  /** m³/s that a stopped one begins with, taken for a chord: at rest its law is flat */
  private readonly guess: number;

  constructor(part: PartId, i: number, j: number, law: Loss, running: boolean, firstGuess: number) {
    super(part, i, j);
    this.law = law;
    this.running = running;
    this.Q = firstGuess;
    this.guess = running ? Number.NaN : firstGuess;
  }

  linearise(Hi: number, Hj: number): void {
    if (this.Q === this.guess) return this.between(Hi, Hj, this.law.loss(this.Q), this.law.loss(this.Q) / this.Q);
    const slope = this.running && this.Q < 0 ? 1 / slip : Math.max(this.law.slope(this.Q), this.running ? flattest : 0);
    this.between(Hi, Hj, this.lossNow(this.Q), slope);
  }

  override lossNow(Q: number): number {
    return this.running && Q < 0 ? this.law.loss(0) + Q / slip : this.law.loss(Q);
  }

  /** Backwards its law is all but vertical: a step that lands there is set back to where it begins. */
  override accept(Q: number, _Hi: number, _Hj: number): void {
    this.Q = this.running && Q < -mostSlip ? -shutTrace : Q;
  }
}
