/** Newton's method on the equations of a network, with its safeguards, in this order: a pipe's first guess is taken for
 * a chord (`fullLines.ts`), and links keep their own signs where a law is S-shaped; no head and no flow goes over its
 * bounds; from the eighth step on the length of a step is chosen so that the convex content Σ∫loss dQ does not rise
 * along it (its slope along the step is Σ residual·δQ, so no content need be summed).
 *
 * Close to the answer one elimination serves two steps, where the step before shows that it will do.
 *
 * Convergence is judged by residuals alone. */
import { balanceTolerance, type Equations, type Judged, lossTolerance, type SystemNode } from "./equations.ts";
import type { BranchLink, Link } from "./links/link.ts";
import { Matrix } from "./matrix.ts";

export interface Solved extends Judged {
  readonly iterations: number;
}

/** what Newton's method aims at, well inside what is promised; m³/s and m */
export const aimedBalance = 1e-12;
const aimedLoss = 1e-10;

export class Newton {
  private readonly equations: Equations;
  private readonly matrix: Matrix;
  /** by node: no head leaves these, m */
  private readonly least: Float64Array;
  private readonly most: Float64Array;
  /** m³/s by link */
  private readonly step: Float64Array;

  constructor(equations: Equations) {
    const { nodes, links } = equations;
    this.equations = equations;
    this.matrix = new Matrix(nodes.length, links);
    this.step = new Float64Array(links.length);
    this.least = new Float64Array(nodes.length);
    this.most = new Float64Array(nodes.length);
    for (let v = 0; v < nodes.length; v++) {
      const { least = -1e4, most = 1e4 } = nodes[v] as SystemNode;
      this.least[v] = least;
      this.most[v] = most;
    }
  }

  get factorisations(): number {
    return this.matrix.factorisations;
  }

  /** From where heads and flows stand.
   * @param most steps
   * @param length of each step, 1 for a whole one */
  run(most: number, length: number): Solved {
    const { equations, matrix } = this;
    // Volumes are rounded: over a short step their last digit is a flow of that size.
    const rounds = (step: number): boolean => step > 0 && step < 1e4;
    const aim = rounds(equations.timeStep) || rounds(equations.junctionStep) ? aimedBalance * 50 : aimedBalance;
    equations.take();
    const left = equations.linearise();
    let best = Number.POSITIVE_INFINITY;
    let since = 0;
    let iterations = 0;
    /** how far off the aim, now and a step before */
    let off = Number.POSITIVE_INFINITY;
    let wasOff = off;
    for (; iterations < most; iterations++) {
      // Once at least: heads behind what is shut hang on traces far under the aim.
      if (iterations > 0 && left.balance <= aim && left.loss <= aimedLoss) break;
      // Rounding has the last word: inside what is promised, and no better there for three steps.
      const measure = Math.max(left.balance / balanceTolerance, left.loss / lossTolerance);
      if (measure > 1 || measure < best * 0.5) {
        best = measure > 1 ? Number.POSITIVE_INFINITY : measure;
        since = 0;
      } else since++;
      if (since >= 3) break;
      wasOff = off;
      off = Math.max(left.balance / aim, left.loss / aimedLoss);
      // Close by, the step before tells what the same matrix would leave: 2·off²/wasOff. Where that meets the aim
      // it need not be put together and eliminated again.
      const serves = equations.twoSided && length === 1 && iterations > 0 && 2 * off * off <= wasOff;
      if (!serves) matrix.factor(equations);
      matrix.solve(equations);
      this.advance(length, iterations >= 8);
      equations.linearise();
    }
    equations.give();
    return { ...equations.judge(left), iterations };
  }

  /** One step, `length` of it, shorter where the content would rise. */
  private advance(length: number, guarded: boolean): void {
    const { equations, least, most, step } = this;
    const { head, given, flow, q, lines, branches, branchAt } = equations;
    const { right, place, ends, gi, gj } = this.matrix;
    for (let v = 0; v < given.length; v++) {
      if (given[v] === 1) continue;
      const p = place[v] as number;
      const from = head[v] as number;
      const to = from + (right[p] as number);
      // A step that is not cut short keeps its own digits: at an edge less than the last one of a level is a flow.
      if (to > (most[v] as number)) right[p] = (most[v] as number) - from;
      else if (to < (least[v] as number)) right[p] = (least[v] as number) - from;
    }
    for (let e = 0; e < step.length; e++) {
      const a = ends[2 * e] as number;
      const b = ends[2 * e + 1] as number;
      let to = q[e] as number;
      if (a >= 0) to += (gi[e] as number) * (right[a] as number);
      if (b >= 0) to -= (gj[e] as number) * (right[b] as number);
      step[e] = to - (flow[e] as number);
    }
    const t = length * (guarded && equations.symmetric ? this.contentStep() : 1);
    for (let v = 0; v < given.length; v++) {
      if (given[v] === 0) head[v] = (head[v] as number) + t * (right[place[v] as number] as number);
    }
    lines.accept(flow, step, t);
    for (let k = 0; k < branches.length; k++) {
      const link = branches[k] as BranchLink;
      const bound = link.most + link.over;
      const to = link.Q + t * (step[branchAt[k] as number] as number);
      link.accept(
        Math.min(bound, Math.max(-bound, to)),
        link.i < 0 ? 0 : (head[link.i] as number),
        link.j < 0 ? 0 : (head[link.j] as number),
      );
    }
  }

  /** How far to go so that the content's slope along the step stays below zero: 1 for a whole step. */
  private contentStep(): number {
    const { step } = this;
    const { links, head, flow } = this.equations;
    const { right, place } = this.matrix;
    const headAt = (v: number, t: number): number =>
      v < 0 ? 0 : (head[v] as number) + t * (right[place[v] as number] as number);
    const slopeAt = (t: number): number => {
      let slope = 0;
      for (let e = 0; e < links.length; e++) {
        const link = links[e] as Link;
        const dQ = step[e] as number;
        if (dQ === 0) continue;
        const loss = link.lossNow((flow[e] as number) + t * dQ);
        if (loss !== null) slope += (loss - (headAt(link.i, t) - headAt(link.j, t))) * dQ;
      }
      return slope;
    };
    const atStart = slopeAt(0);
    if (!(atStart < 0) || slopeAt(1) <= 0.5 * Math.abs(atStart)) return 1;
    let low = 0;
    let high = 1;
    for (let k = 0; k < 12; k++) {
      const middle = (low + high) / 2;
      if (slopeAt(middle) > 0) high = middle;
      else low = middle;
    }
    return Math.max(high, 1e-3);
  }
}
