/** Legs in which air stands while the pumps run: what never held water has no column to fall back when they stop. */
import type { PartId } from "../document/section.ts";
import type { Network, PipeModel, PumpModel } from "../network/network.ts";
import { isOpenAt } from "../solver/branchAir.ts";
import { bareSuction } from "../solver/readings/bareSuction.ts";
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
  const filled = filledGroups(state);
  return [...network.pipes.values()].flatMap((pipe): readonly DryLeg[] => {
    if (pipe.runs !== "full") return [];
    if (!filled.has(pipe.group))
      return pipe.stretches.map(({ start, end }) => ({ pipe: pipe.pipe.id, start, end, head: bodiesAlone }));
    const flows = pipe.stretches.map(({ link }) => settle(link.Q));
    const empty = emptyLegs(state, pipe, flows, airy);
    return [
      ...pipe.stretches.flatMap(({ start, end, i, j }, k) =>
        empty[k] && flows[k] === 0
          ? [{ pipe: pipe.pipe.id, start, end, head: Math.max(system.head[i] as number, system.head[j] as number) }]
          : [],
      ),
      ...pastShutValves(state, pipe, flows),
    ];
  });
}

/** m: water stands in such a leg no higher than in the body at its end */
const bodiesAlone = Number.NEGATIVE_INFINITY;

/** Groups of full lines in which water moves, or that a pump with water to lift keeps filled up to its head. In any
 * other water stands no higher than in the bodies at its ends: its pumps are off, or have air at their intake, and what
 * a siphon may once have drawn over has run off by now. */
function filledGroups(state: Steady): ReadonlySet<number> {
  const { network } = state;
  const found = new Set<number>();
  for (const { group, stretches, from, to } of network.pipes.values()) {
    const fills = [from, to].some((end) => end.kind === "pump" && hasWater(state, network.pumps.get(end.pump)));
    if (fills || stretches.some(({ link }) => settle(link.Q) !== 0)) found.add(group);
  }
  return found;
}

function hasWater(state: Steady, model: PumpModel | undefined): boolean {
  if (!model?.link?.running) return false;
  const { pump, intake } = model;
  if (!intake) return bareSuction(state, pump) === null;
  return (state.system.head[intake.i] as number) > intake.mouth.edge + bare;
}

/** m over its intake's edge at which a pump without flow still has no water */
const bare = 1e-6;

/** From an end in the air up to a shut valve: no pump reaches there. */
function pastShutValves(state: Steady, pipe: PipeModel, flows: readonly number[]): readonly DryLeg[] {
  const [first, last] = [pipe.shutAt[0], pipe.shutAt.at(-1)];
  if (first === undefined || last === undefined) return [];
  const rests = (start: number, end: number): boolean =>
    pipe.stretches.every((stretch, k) => stretch.end <= start || stretch.start >= end || flows[k] === 0);
  return (
    [
      ["from", 0, first],
      ["to", last, pipe.drawn],
    ] as const
  ).flatMap(([side, start, end]) =>
    isOpenAt(state, { pipe, side }) && rests(start, end) ? [{ pipe: pipe.pipe.id, start, end, head: bodiesAlone }] : [],
  );
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
