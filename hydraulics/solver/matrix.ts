/** The matrix of Newton's method: the step in heads comes from one M-matrix,
 *     Σ over links of (gi·δHi − gj·δHj) = −(imbalance with every link at its linearised flow)
 * (the gradient method of Todini and Pilati 1988, from memory, with one-way links added). */
import type { Equations } from "./equations.ts";
import { type Link, outside } from "./links/link.ts";
import { eliminationOrder } from "./ordering.ts";
import { entryOf, Factors, type Pattern } from "./sparse.ts";

export class Matrix {
  /** by node, its place in the order of elimination */
  readonly place: Int32Array;
  /** by link, side by side: the places of its ends, i before j (-1 outside) */
  readonly ends: Int32Array;
  /** m by place: the step in heads, from `solve` on */
  readonly right: Float64Array;
  /** conductances that the matrix was put together from, by link; they are kept as long as it serves */
  readonly gi: Float64Array;
  readonly gj: Float64Array;
  factorisations = 0;
  /** by link, where its entry lies (-1: none) */
  private readonly entry: Int32Array;
  private readonly factors: Factors;

  constructor(nodes: number, links: readonly Link[]) {
    const m = links.length;
    const first = new Int32Array(m);
    const second = new Int32Array(m);
    let inside = 0;
    for (let e = 0; e < m; e++) {
      const { i, j } = links[e] as Link;
      if (i === outside || j === outside || i === j) continue;
      first[inside] = i;
      second[inside++] = j;
    }
    const pattern = eliminationOrder(nodes, first.subarray(0, inside), second.subarray(0, inside));
    this.place = pattern.place;
    this.factors = new Factors(pattern);
    this.right = new Float64Array(nodes);
    this.gi = new Float64Array(m);
    this.gj = new Float64Array(m);
    this.ends = new Int32Array(2 * m);
    this.entry = new Int32Array(m);
    for (let e = 0; e < m; e++) this.enter(pattern, e, links[e] as Link);
  }

  private enter(pattern: Pattern, e: number, { i, j }: Link): void {
    const a = i === outside ? -1 : (this.place[i] as number);
    const b = j === outside ? -1 : (this.place[j] as number);
    this.ends[2 * e] = a;
    this.ends[2 * e + 1] = b;
    this.entry[e] = a >= 0 && b >= 0 && a !== b ? entryOf(pattern, a, b) : -1;
  }

  /** Puts the matrix together from the equations as they are linearised, and eliminates it. */
  factor(equations: Equations): void {
    const { factors, ends, entry, gi, gj, place } = this;
    const { symmetric, given } = equations;
    gi.set(equations.gi);
    gj.set(equations.gj);
    factors.symmetric = symmetric;
    factors.clear();
    const { lower, upper, excess } = factors;
    for (let e = 0; e < entry.length; e++) {
      const at = entry[e] as number;
      const a = ends[2 * e] as number;
      const b = ends[2 * e + 1] as number;
      const own = gi[e] as number;
      const other = gj[e] as number;
      if (at >= 0) {
        // a(j, i) = −gi and a(i, j) = −gj
        lower[at] = (lower[at] as number) + (a < b ? own : other);
        if (!symmetric) upper[at] = (upper[at] as number) + (a < b ? other : own);
      } else if (a !== b) {
        if (a >= 0) excess[a] = (excess[a] as number) + own;
        if (b >= 0) excess[b] = (excess[b] as number) + other;
      }
    }
    for (let v = 0; v < given.length; v++) {
      const p = place[v] as number;
      excess[p] = (excess[p] as number) + equations.leadsOut(v);
    }
    factors.factor();
    this.factorisations++;
  }

  /** The step in heads from the matrix as it was eliminated last, into `right`. */
  solve(equations: Equations): void {
    const { right, ends, place } = this;
    const { q, given } = equations;
    right.fill(0);
    for (let e = 0; e < q.length; e++) {
      const a = ends[2 * e] as number;
      const b = ends[2 * e + 1] as number;
      if (a >= 0) right[a] = (right[a] as number) - (q[e] as number);
      if (b >= 0) right[b] = (right[b] as number) + (q[e] as number);
    }
    for (let v = 0; v < given.length; v++) {
      const p = place[v] as number;
      if (given[v] === 1) right[p] = 0;
      else if (equations.stores(v)) right[p] = (right[p] as number) - equations.storing(v);
    }
    this.factors.solve(right);
  }
}
