/** Direct solution of the network's linear equations, sparse and without a subtraction.
 *
 * The matrix of a network is an M-matrix by columns: off-diagonal entries are −(conductance), and each
 * diagonal is the sum of its column's conductances plus what leads out of the unknown nodes (`excess`, to a
 * fixed head or into storage). Conductances here span 1e-14 (a shut valve) to 1e5, so a diagonal formed by
 * subtraction would lose all meaning behind a shut valve. Eliminating with off-diagonals and excesses only
 * (Grassmann, Taksar and Heyman, "Regenerative analysis and steady state distributions for Markov chains",
 * Operations Research 33 (1985); from memory) adds positive numbers throughout: every entry keeps its full
 * relative accuracy and no pivot can vanish.
 *
 * The pattern is symmetric, the values need not be (water that falls freely depends on the upper head only). Where
 * they are, as in every net of full lines, `upper` is `lower` and half the work falls away.
 * The order of elimination comes from `ordering.ts`. Columns that follow one another with the same rows below them
 * are a block: what they owe a later column is added up four at a time, and among themselves without looking up
 * rows. In a mesh of 10,000 lines most of the work lies in blocks of eight and more. */

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
  /** conductances −a(row, column) below the diagonal, and −a(column, row) beside it (unused where symmetric) */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** by place: what leads out of the unknown nodes */
  readonly excess: Float64Array;
  /** whether every conductance counts the same both ways; set before `factor` */
  symmetric = false;
  /** by place: one over the pivot, which is asked for far more often than made */
  private readonly inverse: Float64Array;
  private readonly workLower: Float64Array;
  private readonly workUpper: Float64Array;
  /** the first and the last column of each block, and the block of each column */
  private readonly firstOf: Int32Array;
  private readonly lastOf: Int32Array;
  private readonly blockOf: Int32Array;
  /** blocks that owe a column something, as lists: the first by column, the next by block */
  private readonly owing: Int32Array;
  private readonly next: Int32Array;
  /** by block: how many of the rows below its last column are done */
  private readonly done: Int32Array;

  constructor(pattern: Pattern) {
    const { n, row } = pattern;
    this.pattern = pattern;
    this.lower = new Float64Array(row.length);
    this.upper = new Float64Array(row.length);
    this.excess = new Float64Array(n);
    this.inverse = new Float64Array(n);
    this.workLower = new Float64Array(n);
    this.workUpper = new Float64Array(n);
    this.firstOf = new Int32Array(n);
    this.lastOf = new Int32Array(n);
    this.blockOf = new Int32Array(n);
    this.owing = new Int32Array(n);
    this.next = new Int32Array(n);
    this.done = new Int32Array(n);
    this.findBlocks();
  }

  /** A column joins the block before it where that one's rows are this column and its rows. */
  private findBlocks(): void {
    const { n, start, row } = this.pattern;
    let block = -1;
    for (let p = 0; p < n; p++) {
      const before = p > 0 ? (start[p - 1] as number) : 0;
      const from = start[p] as number;
      const joins = p > 0 && row[before] === p && from - before === (start[p + 1] as number) - from + 1;
      if (!joins) this.firstOf[++block] = p;
      this.lastOf[block] = p;
      this.blockOf[p] = block;
    }
  }

  clear(): void {
    this.lower.fill(0);
    if (!this.symmetric) this.upper.fill(0);
    this.excess.fill(0);
  }

  /** Eliminates in place, column by column, each gathering what earlier columns owe it. */
  factor(): void {
    const { n, start, row } = this.pattern;
    const { lower, workLower, workUpper, excess, inverse, symmetric, blockOf, firstOf, lastOf, owing, next, done } =
      this;
    const upper = symmetric ? lower : this.upper;
    owing.fill(-1);
    for (let p = 0; p < n; p++) {
      const from = start[p] as number;
      const to = start[p + 1] as number;
      const own = blockOf[p] as number;
      let gathered = false;
      for (let block = owing[p] as number; block !== -1; ) {
        const following = next[block] as number;
        const last = lastOf[block] as number;
        const behind = (start[last] as number) + (done[block] as number) + 1;
        const isLast = behind === start[last + 1];
        if (!isLast && !gathered) {
          scatter(workLower, lower, row, from, to);
          if (!symmetric) scatter(workUpper, upper, row, from, to);
          gathered = true;
        }
        this.gather(workLower, lower, upper, block, p);
        if (!isLast) {
          if (!symmetric) this.gather(workUpper, upper, lower, block, -1);
          done[block] = (done[block] as number) + 1;
          this.owe(block, row[behind] as number);
        }
        block = following;
      }
      if (gathered) {
        collect(workLower, lower, row, from, to);
        if (!symmetric) collect(workUpper, upper, row, from, to);
      }
      // Earlier columns of its own block have the same rows: no row need be looked up.
      for (let q = firstOf[own] as number; q < p; q++) {
        const at = (start[q] as number) + p - q - 1;
        const d = inverse[q] as number;
        const byUpper = (upper[at] as number) * d;
        excess[p] = (excess[p] as number) + byUpper * (excess[q] as number);
        add(lower, from, to, at + 1 - from, byUpper);
        if (!symmetric) add(upper, from, to, at + 1 - from, (lower[at] as number) * d);
      }
      let sum = excess[p] as number;
      for (let e = from; e < to; e++) sum += lower[e] as number;
      inverse[p] = 1 / sum;
      if (p !== lastOf[own] || from === to) continue;
      if (from + 1 === to && p === firstOf[own]) {
        // A leaf: what leads out of it leads out of its only neighbour, and there is nothing else to hand on.
        const only = row[from] as number;
        excess[only] =
          (excess[only] as number) + (upper[from] as number) * (inverse[p] as number) * (excess[p] as number);
      } else {
        done[own] = 0;
        this.owe(own, row[from] as number);
      }
    }
  }

  /** What a block owes column p: a(k,p) += a(k,q)·a(q,p)/d(q) for every column q of it, or the mirror of that.
   * @param p -1 where what leads out was counted already */
  private gather(work: Float64Array, values: Float64Array, by: Float64Array, block: number, p: number): void {
    const { start, row } = this.pattern;
    const { inverse, excess, done } = this;
    const last = this.lastOf[block] as number;
    const skipped = done[block] as number;
    const rows = (start[last] as number) + skipped;
    const count = (start[last + 1] as number) - rows;
    let q = this.firstOf[block] as number;
    let out = 0;
    for (; q + 3 <= last; q += 4) {
      const a = (start[q] as number) + last - q + skipped;
      const b = (start[q + 1] as number) + last - q - 1 + skipped;
      const c = (start[q + 2] as number) + last - q - 2 + skipped;
      const d = (start[q + 3] as number) + last - q - 3 + skipped;
      const byA = (by[a] as number) * (inverse[q] as number);
      const byB = (by[b] as number) * (inverse[q + 1] as number);
      const byC = (by[c] as number) * (inverse[q + 2] as number);
      const byD = (by[d] as number) * (inverse[q + 3] as number);
      out +=
        byA * (excess[q] as number) +
        byB * (excess[q + 1] as number) +
        byC * (excess[q + 2] as number) +
        byD * (excess[q + 3] as number);
      for (let t = 1; t < count; t++) {
        const k = row[rows + t] as number;
        work[k] =
          (work[k] as number) +
          (byA * (values[a + t] as number) + byB * (values[b + t] as number)) +
          (byC * (values[c + t] as number) + byD * (values[d + t] as number));
      }
    }
    for (; q <= last; q++) {
      const a = (start[q] as number) + last - q + skipped;
      const byA = (by[a] as number) * (inverse[q] as number);
      out += byA * (excess[q] as number);
      for (let t = 1; t < count; t++) {
        const k = row[rows + t] as number;
        work[k] = (work[k] as number) + byA * (values[a + t] as number);
      }
    }
    if (p >= 0) excess[p] = (excess[p] as number) + out;
  }

  /** Puts a block on the list of the next column that it owes something. */
  private owe(block: number, column: number): void {
    this.next[block] = this.owing[column] as number;
    this.owing[column] = block;
  }

  /** Solves in place; `b` is by place. */
  solve(b: Float64Array): void {
    const { n, start, row } = this.pattern;
    const { lower, inverse } = this;
    const upper = this.symmetric ? lower : this.upper;
    for (let p = 0; p < n; p++) {
      const x = (b[p] as number) * (inverse[p] as number);
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
      b[p] = (b[p] as number) + sum * (inverse[p] as number);
    }
  }
}

function scatter(work: Float64Array, values: Float64Array, row: Int32Array, from: number, to: number): void {
  for (let e = from; e < to; e++) work[row[e] as number] = values[e] as number;
}

function collect(work: Float64Array, values: Float64Array, row: Int32Array, from: number, to: number): void {
  for (let e = from; e < to; e++) values[e] = work[row[e] as number] as number;
}

/** Adds to the entries of a column those that lie so far behind, times `by`. */
function add(values: Float64Array, from: number, to: number, behind: number, by: number): void {
  for (let e = from; e < to; e++) values[e] = (values[e] as number) + by * (values[e + behind] as number);
}
