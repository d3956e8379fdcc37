/** The order in which a symmetric pattern is eliminated, and the fill that follows: leaves first, then approximate
 * minimum degree.
 *
 * A node with one neighbour ties nothing together when it goes, and may leave its neighbour with one; so whatever hangs
 * on a network as a tree goes first, branch by branch, in a time that grows as the lines do. A tree is then done.
 *
 * Any other node ties all its neighbours to one another. Kept as pairs, those ties cost as much as the
 * elimination itself; kept as a list of who belongs together (an "element" of the quotient graph), a tie costs one
 * entry a node, and elements swallowed by a later one are dropped. Degrees are bounded from above instead of
 * counted: |own neighbours| + |newest element| + Σ |what each other element has beyond the newest|.
 * (Amestoy, Davis and Duff, "An approximate minimum degree ordering algorithm", SIAM J. Matrix Anal. Appl. 17
 * (1996); from memory, without its supervariables, which networks as thin as these do not need.) */
import type { Pattern } from "./sparse.ts";

/** Order and fill of a symmetric pattern. `first` and `second` hold the node pairs that share an equation.
 *
 * A node's stretch of `near` holds its elements first and then the neighbours that no element ties it to. It never
 * outgrows the neighbours it began with: whoever joins the newest element loses the eliminated node, or an element
 * that the newest one swallows. */
export function eliminationOrder(n: number, first: ArrayLike<number>, second: ArrayLike<number>): Pattern {
  const place = new Int32Array(n).fill(-1);
  const node = new Int32Array(n);
  /** nodes of all elements one after the other, by the place of the node that made them: the columns of the fill */
  const columnStart = new Int32Array(n + 1);
  const leaves = new Int32Array(n);
  const peeled = peel(place, node, columnStart, leaves, first, second);
  let members = leaves.subarray(0, columnStart[peeled]);
  if (peeled === n) return { n, place, node, start: columnStart, row: members.map((u) => place[u] as number) };

  const { start: from, list: near, length } = neighbourLists(place, first, second);
  const degrees = new Degrees(n);
  for (let v = n - 1; v >= 0; v--) if (place[v] === -1) degrees.put(v, length[v] as number);
  /** of a node: how many of its entries in `near` are elements, by the node that made them */
  const elements = new Int32Array(n);
  const swallowed = new Uint8Array(n);
  /** marks members of the newest element */
  const mark = new Int32Array(n).fill(-1);
  /** of an element, how many of its nodes lie outside the newest one; counted where `counted` is this step */
  const beyond = new Int32Array(n);
  const counted = new Int32Array(n).fill(-1);

  for (let k = peeled; k < n; k++) {
    const v = degrees.takeLeast();
    place[v] = k;
    node[k] = v;
    mark[v] = k;
    const begin = columnStart[k] as number;
    let end = begin;
    // No column has more rows than nodes are left.
    if (begin + n - k > members.length) {
      const longer = new Int32Array(2 * members.length + n - k);
      longer.set(members);
      members = longer;
    }
    const base = from[v] as number;
    const ties = base + (elements[v] as number);
    for (let e = ties; e < base + (length[v] as number); e++) {
      const u = near[e] as number;
      mark[u] = k;
      members[end++] = u;
    }
    for (let e = base; e < ties; e++) {
      const element = near[e] as number;
      const at = place[element] as number;
      swallowed[element] = 1;
      for (let m = columnStart[at] as number; m < (columnStart[at + 1] as number); m++) {
        const u = members[m] as number;
        if (mark[u] === k) continue;
        mark[u] = k;
        members[end++] = u;
      }
    }
    columnStart[k + 1] = end;

    for (let m = begin; m < end; m++) {
      const u = members[m] as number;
      const at = from[u] as number;
      for (let e = at; e < at + (elements[u] as number); e++) {
        const element = near[e] as number;
        if (swallowed[element]) continue;
        if (counted[element] !== k) {
          const column = place[element] as number;
          counted[element] = k;
          beyond[element] = (columnStart[column + 1] as number) - (columnStart[column] as number);
        }
        beyond[element] = (beyond[element] as number) - 1;
      }
    }
    const left = n - k - 1;
    const inner = end - begin - 1;
    for (let m = begin; m < end; m++) {
      const u = members[m] as number;
      const at = from[u] as number;
      const its = at + (elements[u] as number);
      const last = at + (length[u] as number);
      let kept = at;
      let outer = 0;
      for (let e = at; e < its; e++) {
        const element = near[e] as number;
        if (swallowed[element]) continue;
        if (beyond[element] === 0) {
          swallowed[element] = 1;
          continue;
        }
        outer += beyond[element] as number;
        near[kept++] = element;
      }
      const newest = kept++;
      elements[u] = kept - at;
      // Ties inside the newest element need no pair of their own any more. The newest element takes the place of
      // what was dropped; where nothing was dropped yet, the first neighbour waits until one is.
      let waiting = -1;
      if (newest === its) {
        waiting = near[its] as number;
        if (mark[waiting] === k) waiting = -1;
      }
      near[newest] = v;
      for (let e = newest === its ? its + 1 : its; e < last; e++) {
        const w = near[e] as number;
        if (mark[w] !== k) near[kept++] = w;
      }
      if (waiting !== -1) near[kept++] = waiting;
      length[u] = kept - at;
      degrees.move(u, Math.min(left - 1, degrees.of(u) + inner, kept - newest - 1 + inner + outer));
    }
  }
  return { n, place, node, ...columns(n, place, columnStart, members) };
}

/** Takes leaves off as long as there are any, with the column of each; how many went. All neighbours of a node are kept
 * as one number, their exclusive or: where one is left it is that one. */
function peel(
  place: Int32Array,
  node: Int32Array,
  start: Int32Array,
  row: Int32Array,
  first: ArrayLike<number>,
  second: ArrayLike<number>,
): number {
  const degree = new Int32Array(place.length);
  const across = new Int32Array(place.length);
  for (let e = 0; e < first.length; e++) {
    const a = first[e] as number;
    const b = second[e] as number;
    if (a === b) continue;
    degree[a] = (degree[a] as number) + 1;
    degree[b] = (degree[b] as number) + 1;
    across[a] = (across[a] as number) ^ b;
    across[b] = (across[b] as number) ^ a;
  }
  let k = 0;
  let end = 0;
  for (let begin = 0; begin < place.length; begin++) {
    // Up the branch as far as it is one.
    for (let v = begin; place[v] === -1 && (degree[v] as number) <= 1; ) {
      place[v] = k;
      node[k++] = v;
      start[k] = end;
      if (degree[v] === 0) break;
      const u = across[v] as number;
      row[end++] = u;
      start[k] = end;
      degree[u] = (degree[u] as number) - 1;
      across[u] = (across[u] as number) ^ v;
      v = u;
    }
  }
  return k;
}

/** Neighbours among nodes that have no place yet, in one array, each pair once. */
function neighbourLists(
  place: Int32Array,
  first: ArrayLike<number>,
  second: ArrayLike<number>,
): { start: Int32Array; list: Int32Array; length: Int32Array } {
  const n = place.length;
  const start = new Int32Array(n + 1);
  for (let e = 0; e < first.length; e++) {
    const a = first[e] as number;
    const b = second[e] as number;
    if (a === b || place[a] !== -1 || place[b] !== -1) continue;
    start[a + 1] = (start[a + 1] as number) + 1;
    start[b + 1] = (start[b + 1] as number) + 1;
  }
  for (let v = 0; v < n; v++) start[v + 1] = (start[v + 1] as number) + (start[v] as number);
  const list = new Int32Array(start[n] as number);
  const length = new Int32Array(n);
  const put = (a: number, b: number): void => {
    list[(start[a] as number) + (length[a] as number)] = b;
    length[a] = (length[a] as number) + 1;
  };
  for (let e = 0; e < first.length; e++) {
    const a = first[e] as number;
    const b = second[e] as number;
    if (a === b || place[a] !== -1 || place[b] !== -1) continue;
    put(a, b);
    put(b, a);
  }
  const seen = new Int32Array(n).fill(-1);
  for (let v = 0; v < n; v++) {
    const at = start[v] as number;
    let kept = 0;
    for (let e = at; e < at + (length[v] as number); e++) {
      const u = list[e] as number;
      if (seen[u] === v) continue;
      seen[u] = v;
      list[at + kept++] = u;
    }
    length[v] = kept;
  }
  return { start, list, length };
}

/** Rows of each column as places, rising: listed by row first, then read back row by row. */
function columns(
  n: number,
  place: Int32Array,
  start: Int32Array,
  members: Int32Array,
): { start: Int32Array; row: Int32Array } {
  const entries = start[n] as number;
  const byRow = new Int32Array(n + 1);
  for (let e = 0; e < entries; e++) {
    const r = place[members[e] as number] as number;
    byRow[r + 1] = (byRow[r + 1] as number) + 1;
  }
  for (let r = 0; r < n; r++) byRow[r + 1] = (byRow[r + 1] as number) + (byRow[r] as number);
  const columnOf = new Int32Array(entries);
  const filled = byRow.slice(0, n);
  for (let k = 0; k < n; k++) {
    for (let e = start[k] as number; e < (start[k + 1] as number); e++) {
      const r = place[members[e] as number] as number;
      columnOf[filled[r] as number] = k;
      filled[r] = (filled[r] as number) + 1;
    }
  }
  const row = new Int32Array(entries);
  const next = start.slice(0, n);
  for (let r = 0; r < n; r++) {
    for (let e = byRow[r] as number; e < (byRow[r + 1] as number); e++) {
      const k = columnOf[e] as number;
      row[next[k] as number] = r;
      next[k] = (next[k] as number) + 1;
    }
  }
  return { start, row };
}

/** Nodes by degree, in doubly linked lists. */
class Degrees {
  private readonly first: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly degree: Int32Array;
  private least = 0;

  constructor(n: number) {
    this.first = new Int32Array(n + 1).fill(-1);
    this.next = new Int32Array(n);
    this.previous = new Int32Array(n);
    this.degree = new Int32Array(n);
  }

  of(v: number): number {
    return this.degree[v] as number;
  }

  put(v: number, degree: number): void {
    const then = this.first[degree] as number;
    this.degree[v] = degree;
    this.next[v] = then;
    this.previous[v] = -1;
    if (then !== -1) this.previous[then] = v;
    this.first[degree] = v;
    if (degree < this.least) this.least = degree;
  }

  move(v: number, degree: number): void {
    this.remove(v);
    this.put(v, degree);
  }

  /** Needs a node that is left. */
  takeLeast(): number {
    while (this.first[this.least] === -1) this.least++;
    const v = this.first[this.least] as number;
    this.remove(v);
    return v;
  }

  private remove(v: number): void {
    const before = this.previous[v] as number;
    const after = this.next[v] as number;
    if (before === -1) this.first[this.degree[v] as number] = after;
    else this.next[before] = after;
    if (after !== -1) this.previous[after] = before;
  }
}
