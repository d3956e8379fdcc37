/** The running state: every head, level and flow at once, and the vents settled.
 *
 * Vents are rated with all of them closed. Those that would draw at least as much air as water flows past
 * (ample) become air points; the rest change nothing but spill where water stands over their open end. An air
 * point under water closes by itself (`airPointLink`). A branch that ends in air, passes no water and is not
 * shut off admits air at its tee in the same way. */
import { siteOf, ventOpen } from "../document/defaults.ts";
import type { PartId, Section } from "../document/section.ts";
import { boreArea } from "../formulas/circle.ts";
import { criticalEnergy } from "../formulas/criticalFlow.ts";
import { velocityHead } from "../formulas/totalHead.ts";
import { ventAirFlow, ventArea } from "../formulas/ventPassage.ts";
import { waterDensity } from "../formulas/water.ts";
import { buildNetwork } from "../network/build.ts";
import type { BuildOptions } from "../network/draft.ts";
import type { Network, PipeModel, VentModel } from "../network/network.ts";
import { samePlace } from "../network/pipeModel.ts";
import { airingTees, type Cuts, moreCuts, setArriving } from "./branchAir.ts";
import { outside } from "./links/link.ts";
import { MouthLink } from "./links/mouthLink.ts";
import { atRest } from "./rest.ts";
import { type Solved, System } from "./system.ts";

export interface VentRatingNow {
  /** y − z_tee with every vent closed */
  readonly pressureHead: number;
  readonly suction: number;
  /** m³/s of water past it */
  readonly passing: number;
  readonly air: number;
  readonly ample: boolean;
}

export interface Steady {
  readonly network: Network;
  readonly system: System;
  readonly solved: Solved;
  readonly ratings: ReadonlyMap<PartId, VentRatingNow>;
  readonly iterations: number;
}

export type SteadyOptions = Pick<BuildOptions, "asFull" | "scatter" | "straightCurves" | "clearMedia" | "without"> & {
  /** heads and flows to start from, of a section that differs a little */
  readonly from?: Steady;
  /** bodies whose level is given besides the ponds */
  readonly given?: ReadonlyMap<PartId, number>;
};

export function solveSteady(section: Section, options: SteadyOptions = {}): Steady {
  const { from, given, ...build } = options;
  const hasVents = [...section.parts.values()].some((part) => part.kind === "vent");
  let iterations = 0;
  let ratings: ReadonlyMap<PartId, VentRatingNow> = new Map();
  const attempt = (more: Partial<BuildOptions>, near: Steady | undefined): Steady => {
    const network = buildNetwork(section, { pumps: "running", checkValves: "sound", ...build, ...more });
    const system = systemOf(network, given);
    if (near) startFrom(network, system, near);
    const solved = system.solve();
    iterations += solved.iterations;
    // Heads in a line that stands dry hang on nothing: what they were in another state can be the worst of guesses.
    if (near && !solved.converged) return attempt(more, undefined);
    return { network, system, solved, ratings, iterations };
  };

  let state = attempt({ ventsShut: true }, from);
  if (!state.solved.converged) return state;
  let branchAir: Cuts = new Map();
  const settleBranches = (more: Partial<BuildOptions>) => {
    for (let round = 0; round < 8 && state.solved.converged; round++) {
      const next = moreCuts(state, branchAir);
      if (next === branchAir) return;
      branchAir = next;
      state = attempt({ ...more, branchAir }, state);
    }
  };
  settleBranches({ ventsShut: true });
  if (!hasVents || !state.solved.converged) return state;
  ratings = new Map([...state.network.vents.values()].map((vent) => [vent.vent.id, rateNow(state, vent)]));
  const ample = new Set([...ratings].filter(([, rating]) => rating.ample).map(([id]) => id));
  state = attempt({ airPoints: ample, branchAir }, state);
  settleBranches({ airPoints: ample });
  return { ...state, ratings, iterations };
}

/** A system with the ponds' levels given, vents' velocity heads kept up to date. */
export function systemOf(network: Network, given?: ReadonlyMap<PartId, number>): System {
  const system = new System(network.nodes, network.links);
  for (const { body, surface } of network.bodies.values()) {
    const level = given?.get(body.id) ?? (body.kind === "pond" ? body.waterLevel : undefined);
    if (level === undefined) continue;
    system.given[surface] = 1;
    system.head[surface] = level;
  }
  for (const link of network.links) if (link instanceof MouthLink) link.levelGiven = system.given[link.i] === 1;
  keepVelocityHeads(network, system);
  return system;
}

/** Vents spill, and tees take in air, by the pressure of the water there: the head less what is in its speed. */
export function keepVelocityHeads(network: Network, system: System): void {
  const spilling = [...network.vents.values()].filter((vent) => vent.spill !== null);
  const airing = airingTees(network);
  if (spilling.length + airing.length > 0) {
    const feeds = spilling.map((vent) => ({
      spill: vent.spill as NonNullable<VentModel["spill"]>,
      around: stretchesAt(network, vent),
    }));
    system.beforeIteration = () => {
      for (const { spill, around } of feeds) spill.velocityHead = velocityHead(arriving(around) / around.area);
      for (const tee of airing) setArriving(tee);
    };
  }
}

interface Around {
  readonly before: PipeModel["stretches"][number] | null;
  readonly after: PipeModel["stretches"][number] | null;
  readonly area: number;
}

export function stretchesAt(network: Network, vent: Pick<VentModel, "pipe" | "at">): Around {
  const pipe = network.pipes.get(vent.pipe) as PipeModel;
  const before =
    pipe.stretches.find((stretch) => stretch.end > vent.at - samePlace && stretch.start < vent.at - samePlace) ?? null;
  const after =
    pipe.stretches.find((stretch) => stretch.start < vent.at + samePlace && stretch.end > vent.at + samePlace) ?? null;
  const end = before === null ? pipe.from : after === null ? pipe.to : null;
  // What flows in the one pipe at a joint flows past it: it arrives by this one or by the other.
  const goesOn = end?.kind === "joint" || (end?.kind === "tee" && end.joint);
  return {
    before: before ?? (goesOn ? after : null),
    after: after ?? (goesOn ? before : null),
    area: boreArea(pipe.pipe.bore),
  };
}

/** The flow that arrives at a place of a pipe, m³/s. */
export const arriving = ({ before, after }: Around): number => Math.max(before?.link.Q ?? 0, -(after?.link.Q ?? 0), 0);

function rateNow(state: Steady, vent: VentModel): VentRatingNow {
  const around = stretchesAt(state.network, vent);
  const passing = arriving(around);
  const pressureHead =
    vent.node >= 0
      ? (state.system.head[vent.node] as number) - velocityHead(passing / around.area) - vent.teeLevel
      : gravityVentHead(state, vent);
  const suction = Math.max(0, -pressureHead);
  const area = ventArea(vent.vent.bore, ventOpen(vent.vent), vent.endLevel - vent.teeLevel);
  const air =
    suction > 0 ? ventAirFlow(suction, area, waterDensity(siteOf(state.network.section).waterTemperature)) : 0;
  return {
    pressureHead,
    suction,
    passing,
    air,
    ample: vent.node >= 0 && suction > 0 && air >= passing,
  };
}

/** Water in a gravity pipe stands as its floors downstream hold it; under the axis there is air, not suction.
 * @param bed m, a level under which the water has no bed there: it needs the energy of critical flow over it */
export function gravityPressureHead(
  state: Pick<Steady, "network" | "system">,
  vent: Pick<VentModel, "pipe" | "at" | "teeLevel">,
  bed = Number.NEGATIVE_INFINITY,
): number {
  const pipe = state.network.pipes.get(vent.pipe) as PipeModel;
  const stretch = pipe.stretches.find(({ start, end }) => vent.at >= start - samePlace && vent.at <= end + samePlace);
  if (!stretch || !("forward" in stretch.link)) return 0;
  const { link } = stretch;
  const law = link.Q >= 0 ? link.forward : link.backward;
  const way = link.Q >= 0 ? 1 : -1;
  if (!law || Math.abs(link.Q) < atRest) return 0;
  const flow = Math.abs(link.Q);
  const downNode = way === 1 ? stretch.j : stretch.i;
  const receiving = downNode === outside ? Number.NEGATIVE_INFINITY : (state.system.head[downNode] as number);
  const head = Math.max(law.headAlong(vent.at, flow, receiving), bed + criticalEnergy(flow, pipe.pipe.bore));
  return head - law.velocityHead(flow) - vent.teeLevel;
}

/** At a vent's tee, of which the invert is the bed. */
export const gravityVentHead = (state: Pick<Steady, "network" | "system">, vent: VentModel): number =>
  gravityPressureHead(state, vent, vent.teeLevel - (state.network.pipes.get(vent.pipe)?.pipe.bore ?? 0) / 2);

/** Heads and flows of a nearby solution, part by part, where the parts still stand. */
function startFrom(network: Network, system: System, near: Steady): void {
  for (const [id, body] of network.bodies) {
    const was = near.network.bodies.get(id);
    if (!was) continue;
    if (!system.given[body.surface]) system.head[body.surface] = near.system.head[was.surface] as number;
    body.column.forEach(({ node }, k) => {
      const other = was.column[k];
      if (other) system.head[node] = near.system.head[other.node] as number;
    });
  }
  for (const [id, pump] of network.pumps) {
    const was = near.network.pumps.get(id);
    if (!was) continue;
    system.head[pump.inlet] = near.system.head[was.inlet] as number;
    system.head[pump.outlet] = near.system.head[was.outlet] as number;
    if (pump.link && was.link) pump.link.Q = was.link.Q;
    if (pump.intake && was.intake) {
      pump.intake.Q = was.intake.Q;
      pump.intake.state = was.intake.state;
    }
  }
  for (const [id, pipe] of network.pipes) {
    const was = near.network.pipes.get(id);
    if (!was || was.runs !== pipe.runs) continue;
    for (const stretch of pipe.stretches) {
      const middle = (stretch.start + stretch.end) / 2;
      const other = was.stretches.find(({ start, end }) => middle >= start && middle <= end) ?? was.stretches[0];
      if (!other) continue;
      stretch.link.Q = other.link.Q;
      for (const [mine, its] of [
        [stretch.i, other.i],
        [stretch.j, other.j],
      ] as const) {
        if (mine !== outside && its !== outside && !system.given[mine])
          system.head[mine] = near.system.head[its] as number;
      }
    }
    for (const side of ["mouthFrom", "mouthTo"] as const) {
      const mine = pipe[side];
      const its = was[side];
      if (mine && its) {
        mine.Q = its.Q;
        mine.state = its.state;
      }
    }
  }
}
