/** Which ways out of a vessel count as its outlets, and what they carry together.
 *
 * Outlets: gravity pipes that carry water out while running (at rest: those drawn from the vessel) and spillways;
 * never a shut pipe, a flush pipe, or a line of a pump's group. */

import type { GravityLaw } from "../capacity/gravityLaw.ts";
import { crestKind, siteOf, valveRole } from "../document/defaults.ts";
import type { PartId, Spillway, Vessel } from "../document/section.ts";
import { weirFlow } from "../formulas/weir.ts";
import { leadsTo, piecesOf } from "../network/chains.ts";
import type { Network, PipeEndModel, PipeModel } from "../network/network.ts";
import { GravityLink } from "./links/gravityLink.ts";
import { outside } from "./links/link.ts";
import { atRest } from "./rest.ts";
import type { Control } from "./running.ts";
import { type Steady, solveSteady } from "./steady.ts";

export interface PipeOutlet {
  readonly kind: "pipe";
  readonly pipe: PipeModel;
  readonly law: GravityLaw;
  /** node it leads to; `outside` for the air */
  readonly towards: number;
  /** drawn on the vessel side: the stretch at the vessel */
  readonly link: GravityLink;
  readonly way: 1 | -1;
  readonly flow: number;
}
export interface SillOutlet {
  readonly kind: "sill";
  readonly spillway: Spillway;
  readonly flow: number;
  readonly towards: number;
}
export type Outlet = PipeOutlet | SillOutlet;

export const hasFlush = (pipe: PipeModel): boolean => pipe.valves.some(({ valve }) => valveRole(valve) === "flush");

/** The pipes of lines with a flush valve, on whichever piece of its line it sits. */
export function flushPipes(network: Pick<Network, "pipes">): ReadonlySet<PipeModel> {
  const found = new Set<PipeModel>();
  for (const pipe of network.pipes.values()) {
    if (found.has(pipe) || !hasFlush(pipe)) continue;
    for (const piece of piecesOf(network, pipe)) found.add(piece);
  }
  return found;
}

const isIn = (end: PipeEndModel, { id }: Vessel): boolean => end.kind === "body" && end.opening.body === id;

export function outletsOf(state: Steady, vessel: Vessel): readonly Outlet[] {
  const { network } = state;
  const flushes = flushPipes(network);
  const ways: PipeOutlet[] = [];
  for (const pipe of network.pipes.values()) {
    if (pipe.runs !== "gravity" || flushes.has(pipe)) continue;
    const ends = [
      { end: pipe.from, stretch: pipe.stretches[0], way: 1 as const },
      { end: pipe.to, stretch: pipe.stretches.at(-1), way: -1 as const },
    ];
    for (const { end, stretch, way } of ends) {
      if (!isIn(end, vessel) || !stretch || !(stretch.link instanceof GravityLink)) continue;
      // A line that leads back into the same water lets none of it out.
      const far = leadsTo(network, { pipe, side: way === 1 ? "from" : "to" });
      if (isIn(far.pipe[far.side], vessel)) continue;
      const law = way === 1 ? stretch.link.forward : stretch.link.backward;
      if (!law) continue;
      ways.push({
        kind: "pipe",
        pipe,
        law,
        link: stretch.link,
        way,
        flow: way * stretch.link.Q,
        towards: way === 1 ? stretch.j : stretch.i,
      });
    }
  }
  const sills: SillOutlet[] = [];
  for (const { spillway, link } of network.spillways.values()) {
    if (spillway.from === vessel.id) sills.push({ kind: "sill", spillway, flow: link.Q, towards: link.j });
  }
  const carrying = ways.filter(({ flow }) => flow > atRest);
  const atWork = carrying.length > 0 || sills.some(({ flow }) => flow > atRest);
  return [...(atWork ? carrying : ways.filter(({ way }) => way === 1)), ...sills];
}

export interface Capacity {
  /** m³/s with the vessel at its rim less the freeboard */
  readonly flow: number;
  readonly control: Control;
}

/** What the outlets carry together at the rim less the freeboard, the rest of the network as it runs. */
export function capacityOf(state: Steady, vessel: Vessel, outlets: readonly Outlet[]): Capacity {
  const level = vessel.rimLevel - siteOf(state.network.section).freeboard;
  const shared =
    outlets.some((outlet) => outlet.kind === "pipe" && outlet.pipe.stretches.length > 1) ||
    outlets.some((outlet) => outlet.kind === "pipe" && goesOn(outlet));
  const loaded = shared ? loadedAt(state, vessel, level) : null;
  let flow = 0;
  let most = 0;
  let control: Control = "none";
  for (const outlet of outlets) {
    const receiving =
      outlet.towards === outside ? Number.NEGATIVE_INFINITY : (state.system.head[outlet.towards] as number);
    let carried: number;
    let by: Control;
    if (outlet.kind === "sill") {
      const { crestZ, width } = outlet.spillway;
      carried = weirFlow(level - Math.max(crestZ, receiving), width, crestKind(outlet.spillway));
      by = "rim";
    } else if (loaded) {
      carried = Math.max(0, loaded.flowOf(outlet));
      by = loaded.controlOf(outlet);
    } else {
      carried = outlet.law.flowAt(level, receiving);
      by = outlet.law.controlAt(carried, receiving);
    }
    flow += carried;
    if (carried > most) {
      most = carried;
      control = by;
    }
  }
  return { flow, control };
}

const goesOn = ({ way, pipe }: PipeOutlet): boolean =>
  ["tee", "joint"].includes((way === 1 ? pipe.to : pipe.from).kind);

/** Where outlets share a pipe, the capacity is found with the vessel held at that level
 * and the others where they run. */
function loadedAt(state: Steady, vessel: Vessel, level: number) {
  const given = new Map<PartId, number>();
  for (const [id, body] of state.network.bodies) given.set(id, state.system.head[body.surface] as number);
  given.set(vessel.id, level);
  const loaded = solveSteady(state.network.section, { given, clearMedia: true });
  const linkOf = (outlet: PipeOutlet) => {
    const pipe = loaded.network.pipes.get(outlet.pipe.pipe.id) as PipeModel;
    return (outlet.way === 1 ? pipe.stretches[0] : pipe.stretches.at(-1)) as PipeModel["stretches"][number];
  };
  return {
    flowOf: (outlet: PipeOutlet) => outlet.way * linkOf(outlet).link.Q,
    controlOf: ({ pipe, way }: PipeOutlet): Control => {
      const { stretches } = loaded.network.pipes.get(pipe.pipe.id) as PipeModel;
      let control: Control = "none";
      for (const { link, i, j } of way === 1 ? stretches : stretches.toReversed()) {
        if (!(link instanceof GravityLink)) break;
        const node = way === 1 ? j : i;
        const receiving = node === outside ? Number.NEGATIVE_INFINITY : (loaded.system.head[node] as number);
        control = (way === 1 ? link.forward : link.backward)?.controlAt(way * link.Q, receiving) ?? "none";
        // Water that stands over a tee on the way is held up by what lies past it.
        if (control !== "outlet") break;
      }
      return control;
    },
  };
}
