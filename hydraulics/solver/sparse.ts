/** Direct solution of the network's linear equations, sparse and without a subtraction.
 *
 * The matrix of a network is an M-matrix by columns: off-diagonal entries are −(conductance), and each
 * diagonal is the sum of its column's conductances plus what leads out of the unknown nodes (`excess`, to a
 * fixed head or into storage). Conductances here span 1e-13 (a shut valve) to 1e5, so a diagonal formed by
 * subtraction would lose all meaning behind a shut valve. Eliminating with off-diagonals and excesses only
 * (Grassmann, Taksar and Heyman, "Regenerative analysis and steady state distributions for Markov chains",
 * Operations Research 33 (1985); from memory) adds positive numbers throughout: every entry keeps its full
 * relative accuracy and no pivot can vanish.
 *
 * The pattern is symmetric, the values need not be (water that falls freely depends on the upper head only).
 * The order of elimination comes from `ordering.ts`. */

export interface Pattern {
  readonly n: number;
  /** permuted place of each node */
  readonly place: Int32Array;
  /** node at each place */
  readonly node: Int32Array;
  readonly start: Int32Array;
  /** rows below the diagonal, rising in each column, as places */
  readonly row: Int32Array;
}

/** Where the entry of a pair of places lies in the pattern. Needs a pair that was analysed. */
export function entryOf(pattern: Pattern, placeA: number, placeB: number): number {
  const column = Math.min(placeA, placeB);
  const wanted = Math.max(placeA, placeB);
  let low = pattern.start[column] as number;
  let high = (pattern.start[column + 1] as number) - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((pattern.row[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The numbers of one factorisation; all arrays are kept between solves. */
export class Factors {
  readonly pattern: Pattern;
  /** conductances −a(row, column) below the diagonal, and −a(column, row) beside it */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** by place: what leads out of the unknown nodes */
  readonly excess: Float64Array;
  private readonly pivot: Float64Array;
  private readonly workLower: Float64Array;
  private readonly workUpper: Float64Array;
  private readonly head: Int32Array;
  private readonly next: Int32Array;
  private readonly cursor: Int32Array;

  constructor(pattern: Pattern) {
    const { n, row } = pattern;
    this.pattern = pattern;
    this.lower = new Float64Array(row.length);
    this.upper = new Float64Array(row.length);
    this.excess = new Float64Array(n);
    this.pivot = new Float64Array(n);
    this.workLower = new Float64Array(n);
    this.workUpper = new Float64Array(n);
    this.head = new Int32Array(n);
    this.next = new Int32Array(n);
    this.cursor = new Int32Array(n);
  }

  clear(): void {
    this.lower.fill(0);
    this.upper.fill(0);
    this.excess.fill(0);
  }

  /** Eliminates in place, column by column, each gathering what earlier columns owe it. */
  factor(): void {
    const { n, start, row } = this.pattern;
    const { lower, upper, excess, pivot, workLower, workUpper, head, next, cursor } = this;
    head.fill(-1);
    for (let p = 0; p < n; p++) {
      const from = start[p] as number;
      const to = start[p + 1] as number;
      for (let e = from; e < to; e++) {
        const k = row[e] as number;
        workLower[k] = lower[e] as number;
        workUpper[k] = upper[e] as number;
      }
      // Every earlier column q that reaches p: a(k,p) += a(k,q)·a(q,p)/d(q), and its mirror.
      let q = head[p] as number;
      while (q !== -1) {
        const following = next[q] as number;
        const at = cursor[q] as number;
        const end = start[q + 1] as number;
        const d = pivot[q] as number;
        const byUpper = (upper[at] as number) / d;
        const byLower = (lower[at] as number) / d;
        excess[p] = (excess[p] as number) + byUpper * (excess[q] as number);
        for (let e = at + 1; e < end; e++) {
          const k = row[e] as number;
          workLower[k] = (workLower[k] as number) + byUpper * (lower[e] as number);
          workUpper[k] = (workUpper[k] as number) + byLower * (upper[e] as number);
        }
        if (at + 1 < end) {
          cursor[q] = at + 1;
          const r = row[at + 1] as number;
          next[q] = head[r] as number;
          head[r] = q;
        }
        q = following;
      }
      let sum = excess[p] as number;
      for (let e = from; e < to; e++) {
        const k = row[e] as number;
        lower[e] = workLower[k] as number;
        upper[e] = workUpper[k] as number;
        sum += workLower[k] as number;
      }
      pivot[p] = sum;
      if (from < to) {
        cursor[p] = from;
        const r = row[from] as number;
        next[p] = head[r] as number;
        head[r] = p;
      }
    }
  }

  /** Solves in place; `b` is by place. */
  solve(b: Float64Array): void {
    const { n, start, row } = this.pattern;
    const { lower, upper, pivot } = this;
    for (let p = 0; p < n; p++) {
      const x = (b[p] as number) / (pivot[p] as number);
      b[p] = x;
      if (x === 0) continue;
      for (let e = start[p] as number; e < (start[p + 1] as number); e++) {
        const k = row[e] as number;
        b[k] = (b[k] as number) + (lower[e] as number) * x;
      }
    }
    for (let p = n - 1; p >= 0; p--) {
      let sum = 0;
      for (let e = start[p] as number; e < (start[p + 1] as number); e++) {
        sum += (upper[e] as number) * (b[row[e] as number] as number);
      }
      b[p] = (b[p] as number) + sum / (pivot[p] as number);
    }
  }
}
