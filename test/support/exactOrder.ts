/** Exact minimum degree (Tinney and Walker 1967, scheme 2; from memory): slow on large grids, kept to hold the
 * approximate order of the program against. */
import type { Pattern } from "../../hydraulics/solver/sparse.ts";

/** Order and fill of a symmetric pattern. `first` and `second` hold the node pairs that share an equation. */
export function analyse(n: number, first: ArrayLike<number>, second: ArrayLike<number>): Pattern {
  const neighbours: Set<number>[] = Array.from({ length: n }, () => new Set<number>());
  for (let e = 0; e < first.length; e++) {
    const a = first[e] as number;
    const b = second[e] as number;
    if (a === b) continue;
    (neighbours[a] as Set<number>).add(b);
    (neighbours[b] as Set<number>).add(a);
  }
  // Buckets by degree; an entry may be stale and is then skipped.
  const buckets: number[][] = [];
  const push = (v: number) => {
    const degree = (neighbours[v] as Set<number>).size;
    const bucket = buckets[degree];
    if (bucket) bucket.push(v);
    else {
      for (let d = buckets.length; d <= degree; d++) buckets.push([]);
      (buckets[degree] as number[]).push(v);
    }
  };
  for (let v = n - 1; v >= 0; v--) push(v);
  const place = new Int32Array(n).fill(-1);
  const node = new Int32Array(n);
  const columns: number[][] = new Array(n);
  let lowest = 0;
  let entries = 0;
  for (let k = 0; k < n; ) {
    while (lowest < buckets.length && (buckets[lowest] as number[]).length === 0) lowest++;
    const v = (buckets[lowest] as number[]).pop() as number;
    const around = neighbours[v] as Set<number>;
    if (place[v] !== -1 || around.size !== lowest) continue;
    place[v] = k;
    node[k] = v;
    const clique = [...around];
    columns[k] = clique;
    entries += clique.length;
    for (const a of clique) (neighbours[a] as Set<number>).delete(v);
    for (let s = 0; s < clique.length; s++) {
      const a = clique[s] as number;
      const ofA = neighbours[a] as Set<number>;
      for (let t = s + 1; t < clique.length; t++) {
        const b = clique[t] as number;
        if (!ofA.has(b)) {
          ofA.add(b);
          (neighbours[b] as Set<number>).add(a);
        }
      }
    }
    for (const a of clique) push(a);
    lowest = Math.max(0, lowest - 1);
    k++;
  }
  const start = new Int32Array(n + 1);
  const row = new Int32Array(entries);
  for (let k = 0; k < n; k++) {
    const base = start[k] as number;
    const rows = (columns[k] as number[]).map((v) => place[v] as number).sort((a, b) => a - b);
    row.set(rows, base);
    start[k + 1] = base + rows.length;
  }
  return { n, place, node, start, row };
}
