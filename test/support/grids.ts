/** Large networks of full lines between two ponds, for tests and times: chains, trees and grids.
 *
 * The system is put together directly: what is timed is the solver, not the reading of a drawing. Seeded sizes,
 * so that no two lines are alike and symmetry hides nothing. */
import type { PartId } from "../../hydraulics/document/section.ts";
import { hazenWilliams } from "../../hydraulics/elements/hazenWilliams.ts";
import { minorLoss } from "../../hydraulics/elements/minorLoss.ts";
import { FullLink } from "../../hydraulics/solver/links/fullLink.ts";
import { System, type SystemNode } from "../../hydraulics/solver/system.ts";
import { seeded } from "./seeded.ts";

export type Shape = "chain" | "tree" | "grid";
export const shapes: readonly Shape[] = ["chain", "tree", "grid"];

/** Node pairs; node 0 is the upper pond. `ponds` are the lower ones. */
export interface Plan {
  readonly nodes: number;
  readonly pairs: readonly (readonly [from: number, to: number])[];
  readonly ponds: readonly number[];
}

/** A plan with about so many pipes. */
export function planOf(shape: Shape, pipes: number): Plan {
  if (shape === "chain") return chain(pipes);
  return shape === "tree" ? tree(pipes) : grid(pipes);
}

const chain = (pipes: number): Plan => ({
  nodes: pipes + 1,
  pairs: Array.from({ length: pipes }, (_, k) => [k, k + 1] as const),
  ponds: [pipes],
});

/** Each junction feeds two; every leaf is a pond. */
function tree(pipes: number): Plan {
  const pairs = Array.from({ length: pipes }, (_, k) => [Math.floor(k / 2), k + 1] as const);
  const feeds = new Set(pairs.map(([from]) => from));
  return { nodes: pipes + 1, pairs, ponds: pairs.map(([, to]) => to).filter((to) => !feeds.has(to)) };
}

/** Square meshes, from one corner to the other. */
function grid(pipes: number): Plan {
  // side² junctions have 2·side·(side − 1) lines between them.
  const side = Math.max(2, Math.round((1 + Math.sqrt(1 + 2 * pipes)) / 2));
  const pairs: [number, number][] = [];
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const here = y * side + x;
      if (x + 1 < side) pairs.push([here, here + 1]);
      if (y + 1 < side) pairs.push([here, here + side]);
    }
  }
  return { nodes: side * side, pairs, ponds: [side * side - 1] };
}

export interface Large {
  readonly links: readonly FullLink[];
  /** puts the equations in order; needed once, before anything is solved */
  open(): System;
}

/** The ponds stand still: the upper one at `sourceLevel` m, a single lower one at 0, many within half a metre of it. */
export function largeNetwork(plan: Plan, { seed = 1, sourceLevel = 10 } = {}): Large {
  const random = seeded(seed);
  const links = plan.pairs.map(([from, to], k) => {
    const bore = random.pick([0.0532, 0.0678, 0.0814, 0.1056]);
    const fittings = minorLoss.build({ K: random.between(0.2, 2), D: bore });
    return new FullLink(`pipe-${k}` as PartId, from, to, {
      friction: hazenWilliams.build({ L: random.between(1, 6), D: bore, C: 140 }),
      forward: fittings,
      backward: fittings,
      shut: false,
      oneWay: 0,
      openingHead: 0,
      area: (Math.PI * bore ** 2) / 4,
    });
  });
  const levels = new Map<number, number>([[0, sourceLevel]]);
  for (const pond of plan.ponds) levels.set(pond, plan.ponds.length === 1 ? 0 : random.between(-0.5, 0.5));
  const nodes: SystemNode[] = Array.from({ length: plan.nodes }, (_, k) => ({
    part: `node-${k}` as PartId,
    store: null,
    head: levels.get(k) ?? sourceLevel / 2,
  }));
  const open = (): System => {
    const system = new System(nodes, links);
    for (const node of levels.keys()) system.given[node] = 1;
    return system;
  };
  return { links, open };
}
