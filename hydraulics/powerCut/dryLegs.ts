/** Legs in which air stands while the pumps run: what never held water has no column to fall back when they stop. */
import type { PartId } from "../document/section.ts";
import type { Network } from "../network/network.ts";
import { airyNodes, emptyLegs } from "../solver/readings/gradeLine.ts";
import { settle } from "../solver/rest.ts";
import type { Steady } from "../solver/steady.ts";

export interface DryLeg {
  readonly pipe: PartId;
  /** m along the pipe */
  readonly start: number;
  readonly end: number;
  /** m: up to this level water stands in it all the same */
  readonly head: number;
}

export function dryLegs(state: Steady): readonly DryLeg[] {
  const { network, system } = state;
  const airy = airyNodes(state);
  return [...network.pipes.values()].flatMap((pipe): readonly DryLeg[] => {
    if (pipe.runs !== "full") return [];
    const flows = pipe.stretches.map(({ link }) => settle(link.Q));
    const empty = emptyLegs(state, pipe, flows, airy);
    return pipe.stretches.flatMap(({ start, end, i, j }, k) =>
      empty[k] && flows[k] === 0
        ? [{ pipe: pipe.pipe.id, start, end, head: Math.max(system.head[i] as number, system.head[j] as number) }]
        : [],
    );
  });
}

/** m³ that fill no leg */
const aDrop = 1e-6;

/** Those of them that the cut sent no water through either.
 * @param through m³ by link of the cut's network */
export function stillDry(
  legs: readonly DryLeg[],
  { pipes, links }: Pick<Network, "pipes" | "links">,
  through: Float64Array,
): readonly DryLeg[] {
  return legs.filter(({ pipe, start, end }) =>
    (pipes.get(pipe)?.stretches ?? []).every(
      (stretch) =>
        stretch.end <= start ||
        stretch.start >= end ||
        Math.abs(through[links.indexOf(stretch.link)] as number) < aDrop,
    ),
  );
}
