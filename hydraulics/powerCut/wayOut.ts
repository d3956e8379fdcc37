/** By which way a vessel lost its water in a power cut, and where that went: read off the flows of the run, counted
 * from the moment at which the vessel stood lower than its outlets would leave it.
 *
 *        ┌──● crest ──────┐
 *        │    vent        │            way: supply ── tee ── branch, to the second tub
 *     ───┘ tub   ┌──tee───┘
 *                └─ branch ──► second  */
import type { PartId, Point } from "../document/section.ts";
import type { Network, PipeEndModel, PipeModel, VentModel } from "../network/network.ts";
import type { Link } from "../solver/links/link.ts";
import type { CutRun } from "./cut.ts";

/** Part of a pipe on the way, m from its `from` end. */
export interface Leg {
  readonly pipe: PipeModel;
  readonly start: number;
  readonly end: number;
}

export type Goal =
  | { readonly kind: "body"; readonly body: PartId; readonly overPump: boolean }
  | { readonly kind: "ground" }
  | { readonly kind: "vent"; readonly vent: VentModel };

export interface WayOut {
  /** with the mouth in the vessel */
  readonly first: PipeModel;
  /** the level at which that mouth is just uncovered */
  readonly edge: number;
  readonly goal: Goal;
  readonly legs: readonly Leg[];
  /** highest level on the legs */
  readonly crest: number;
  /** on the legs, in the order of the way */
  readonly vents: readonly VentModel[];
}

/** m³ under which nothing was lost by a way */
const aDrop = 1e-6;

/** Null where no pipe took the water. */
export function wayOut({ network, run }: CutRun, vessel: PartId, under: number): WayOut | null {
  const volumes = volumesBelow(network, run, vessel, under);
  const indexOf = new Map(network.links.map((link, e) => [link, e]));
  const volume = (link: Link | null | undefined): number =>
    link ? (volumes[indexOf.get(link) as number] as number) : 0;
  let first: { pipe: PipeModel; side: "from" | "to"; lost: number } | null = null;
  for (const pipe of network.pipes.values()) {
    for (const side of ["from", "to"] as const) {
      const lost = isMouthIn(network, pipe[side], vessel) ? -intoEnd(pipe, side, volume) : 0;
      if (lost > (first?.lost ?? aDrop)) first = { pipe, side, lost };
    }
  }
  if (!first) return null;
  const { pipe, side } = first;
  const end = pipe[side];
  const edge = end.kind === "body" ? end.opening.edge : end.place[1];
  let best: { goal: Goal; at: PipeModel; place: number; volume: number } | null = null;
  const offer = (goal: Goal, at: PipeModel, place: number, into: number): void => {
    if (into > (best?.volume ?? aDrop)) best = { goal, at, place, volume: into };
  };
  for (const other of network.pipes.values()) {
    if (other.group !== pipe.group) continue;
    for (const far of ["from", "to"] as const) {
      if (isMouthIn(network, other[far], vessel) && (other !== pipe || far === side)) continue;
      const goal = goalOf(network, other[far]);
      if (goal) offer(goal, other, far === "from" ? 0 : other.drawn, intoEnd(other, far, volume));
    }
  }
  for (const vent of network.vents.values()) {
    const on = network.pipes.get(vent.pipe);
    if (on?.group === pipe.group) offer({ kind: "vent", vent }, on, vent.at, volume(vent.spill));
  }
  // The closure above hides the assignment from the checker.
  const found = best as { goal: Goal; at: PipeModel; place: number } | null;
  if (!found) return null;
  const legs = legsTo(network, { pipe, at: side === "from" ? 0 : pipe.drawn }, found.at, found.place, new Set()) ?? [];
  return {
    first: pipe,
    edge,
    goal: found.goal,
    legs,
    crest: Math.max(...(legs.length > 0 ? legs.map(crestOf) : [Math.max(...pipe.line.map(([, z]) => z))])),
    vents: legs.flatMap((leg) => ventsOn(network, leg)),
  };
}

/** m³ through each link while the vessel stood under a level. */
function volumesBelow(network: Network, run: CutRun["run"], vessel: PartId, under: number): Float64Array {
  const volumes = new Float64Array(network.links.length);
  const index = [...network.bodies.keys()].indexOf(vessel);
  for (let k = 1; k < run.moments.length; k++) {
    const [before, after] = [run.moments[k - 1], run.moments[k]];
    if (!before || !after || (after.levels[index] as number) > under) continue;
    const half = (after.time - before.time) / 2;
    for (let e = 0; e < volumes.length; e++)
      volumes[e] = (volumes[e] as number) + half * ((before.flows[e] as number) + (after.flows[e] as number));
  }
  return volumes;
}

/** m³ that left the pipe by an end. */
function intoEnd(pipe: PipeModel, side: "from" | "to", volume: (link: Link | undefined) => number): number {
  return side === "from" ? -volume(pipe.stretches[0]?.link) : volume(pipe.stretches.at(-1)?.link);
}

/** An opening in the vessel: a pipe's own end, or a pump's that stands in it. */
export const isMouthIn = (network: Network, end: PipeEndModel, vessel: PartId): boolean =>
  (end.kind === "body" && end.opening.body === vessel) ||
  (end.kind === "pump" && network.pumps.get(end.pump)?.pump.in === vessel);

/** Null for a tee or a joint, and for a pump on a suction line: the way goes on there. */
function goalOf(network: Network, end: PipeEndModel): Goal | null {
  if (end.kind === "body") return { kind: "body", body: end.opening.body, overPump: false };
  if (end.kind === "air") return { kind: "ground" };
  if (end.kind === "tee" || end.kind === "joint") return null;
  const body = network.pumps.get(end.pump)?.pump.in;
  return body === undefined ? null : { kind: "body", body, overPump: true };
}

/** From a place on a pipe to a place on another, over tees and through pumps beside the water. */
function legsTo(
  network: Network,
  here: { readonly pipe: PipeModel; readonly at: number },
  goal: PipeModel,
  place: number,
  seen: Set<PartId>,
): readonly Leg[] | null {
  const { pipe, at } = here;
  if (pipe === goal) return [{ pipe, start: at, end: place }];
  seen.add(pipe.pipe.id);
  for (const { next, leave, enter } of neighbours(network, pipe)) {
    if (seen.has(next.pipe.id)) continue;
    const rest = legsTo(network, { pipe: next, at: enter }, goal, place, seen);
    if (rest) return [{ pipe, start: at, end: leave }, ...rest];
  }
  return null;
}

interface Neighbour {
  readonly next: PipeModel;
  readonly leave: number;
  readonly enter: number;
}

function neighbours(network: Network, pipe: PipeModel): readonly Neighbour[] {
  const found: Neighbour[] = [];
  const ends = (of: PipeModel) =>
    [
      { end: of.from, at: 0 },
      { end: of.to, at: of.drawn },
    ] as const;
  for (const { end, at } of ends(pipe)) {
    const next = end.kind === "tee" ? network.pipes.get(end.pipe) : undefined;
    if (end.kind === "tee" && next) found.push({ next, leave: at, enter: end.at });
  }
  for (const next of network.pipes.values()) {
    if (next === pipe || next.group !== pipe.group) continue;
    for (const { end, at: enter } of ends(next)) {
      if (end.kind === "tee" && end.pipe === pipe.pipe.id) found.push({ next, leave: end.at, enter });
      if (end.kind !== "pump") continue;
      for (const own of ends(pipe))
        if (own.end.kind === "pump" && own.end.pump === end.pump) found.push({ next, leave: own.at, enter });
    }
  }
  return found;
}

/** Along the drawn line: its corners between the two places, and the places. */
function crestOf({ pipe, start, end }: Leg): number {
  const [low, high] = [Math.min(start, end), Math.max(start, end)];
  let along = 0;
  let crest = Number.NEGATIVE_INFINITY;
  for (let k = 1; k < pipe.line.length; k++) {
    const [a, b] = [pipe.line[k - 1], pipe.line[k]] as [Point, Point];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const [from, to] = [Math.max(low, along), Math.min(high, along + length)];
    if (to >= from - 1e-9) {
      const level = (at: number): number => (length > 0 ? a[1] + ((b[1] - a[1]) * (at - along)) / length : a[1]);
      crest = Math.max(crest, level(from), level(Math.max(from, to)));
    }
    along += length;
  }
  return crest;
}

function ventsOn(network: Network, { pipe, start, end }: Leg): readonly VentModel[] {
  const [low, high] = [Math.min(start, end), Math.max(start, end)];
  return [...network.vents.values()].filter(
    (vent) => vent.pipe === pipe.pipe.id && vent.at >= low - 1e-6 && vent.at <= high + 1e-6,
  );
}
