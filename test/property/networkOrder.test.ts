/** The order of elimination: what it leaves must be the true fill, and no more of it than the plain method's. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { eliminationOrder } from "../../hydraulics/solver/ordering.ts";
import type { Pattern } from "../../hydraulics/solver/sparse.ts";
import { analyse } from "../support/exactOrder.ts";
import { planOf, shapes } from "../support/grids.ts";

type Pairs = readonly (readonly [number, number])[];

const patternOf = (n: number, pairs: Pairs): Pattern =>
  eliminationOrder(
    n,
    pairs.map(([a]) => a),
    pairs.map(([, b]) => b),
  );

/** The columns that elimination in an order leaves, by tying neighbours to one another one by one. */
function fillOf(n: number, pairs: Pairs, place: Int32Array, node: Int32Array): number[][] {
  const near = Array.from({ length: n }, () => new Set<number>());
  for (const [a, b] of pairs) {
    if (a === b) continue;
    near[a]?.add(b);
    near[b]?.add(a);
  }
  return Array.from(node, (v, k) => {
    const later = [...(near[v] as Set<number>)].filter((u) => (place[u] as number) > k);
    for (const a of later) for (const b of later) if (a !== b) near[a]?.add(b);
    return later.map((u) => place[u] as number).sort((a, b) => a - b);
  });
}

const columnsOf = ({ n, start, row }: Pattern): number[][] =>
  Array.from({ length: n }, (_, k) => [...row.slice(start[k], start[k + 1])]);

it("is an order of all nodes, with the fill of just that order, whatever is joined to whatever", () => {
  const anyPairs = fc.integer({ min: 1, max: 40 }).chain((n) =>
    fc.record({
      n: fc.constant(n),
      pairs: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: 3 * n }),
    }),
  );

  fc.assert(
    fc.property(anyPairs, ({ n, pairs }) => {
      const pattern = patternOf(n, pairs);

      expect([...pattern.node].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, k) => k));
      expect([...pattern.place].map((k) => pattern.node[k])).toEqual(Array.from({ length: n }, (_, k) => k));
      expect(columnsOf(pattern)).toEqual(fillOf(n, pairs, pattern.place, pattern.node));
    }),
    { seed: 11, numRuns: 300 },
  );
});

it.each(shapes.flatMap((shape) => [30, 300, 3000].map((pipes) => [shape, pipes] as const)))(
  "fills a %s of %i pipes no more than a tenth over exact degrees do, and a chain and a tree not at all",
  (shape, pipes) => {
    const plan = planOf(shape, pipes);
    const mine = patternOf(plan.nodes, plan.pairs).row.length;
    const exact = analyse(
      plan.nodes,
      plan.pairs.map(([a]) => a),
      plan.pairs.map(([, b]) => b),
    ).row.length;

    expect(mine).toBeLessThanOrEqual(shape === "grid" ? 1.1 * exact : plan.pairs.length);
  },
);
