/** A network written down by hand for the program's own solver: waters of given level, junctions, lines, pumps.
 * For worked examples that fix a friction factor, which no drawing can. */
import type { PartId } from "../../hydraulics/document/section.ts";
import type { Loss } from "../../hydraulics/elements/element.ts";
import { squareLaw } from "../../hydraulics/elements/squareLaw.ts";
import { FullLink } from "../../hydraulics/solver/links/fullLink.ts";
import type { Link } from "../../hydraulics/solver/links/link.ts";
import { PumpLink } from "../../hydraulics/solver/links/pumpLink.ts";
import { System, type SystemNode } from "../../hydraulics/solver/system.ts";

export interface Line {
  readonly from: string;
  readonly to: string;
  readonly loss: Loss;
  /** a pump adds head: its loss is −H */
  readonly isPump?: boolean;
  readonly firstGuess?: number;
}

export interface Solution {
  readonly flows: readonly number[];
  head(node: string): number;
}

const none = squareLaw(0);

export function solveWater(levels: Readonly<Record<string, number>>, lines: readonly Line[]): Solution {
  const names = [...new Set([...Object.keys(levels), ...lines.flatMap(({ from, to }) => [from, to])])];
  const place = (name: string) => names.indexOf(name);
  const nodes: SystemNode[] = names.map((name) => ({ part: name as PartId, store: null, head: levels[name] ?? 1 }));
  const links: Link[] = lines.map(({ from, to, loss, isPump, firstGuess = 0.01 }, index) =>
    isPump
      ? new PumpLink(`pump-${index}` as PartId, place(from), place(to), loss, true, firstGuess)
      : new FullLink(`line-${index}` as PartId, place(from), place(to), {
          friction: loss,
          forward: none,
          backward: none,
          shut: false,
          oneWay: 0,
          openingHead: 0,
          area: firstGuess,
        }),
  );
  // Examples name no bore, so the bound that a bore puts on a step does not apply.
  for (const link of links) link.most = Number.POSITIVE_INFINITY;
  const system = new System(nodes, links);
  names.forEach((name, node) => {
    if (name in levels) system.given[node] = 1;
  });
  const solved = system.solve();
  if (!solved.converged) throw new Error(`not converged: ${JSON.stringify(solved)}`);
  return { flows: links.map((link) => link.Q), head: (node) => system.head[place(node)] as number };
}
