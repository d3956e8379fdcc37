/** A pipe's reading: flow, losses, pressures, and how it runs. */
import { pipeMaterial, siteOf } from "../../document/defaults.ts";
import type { Section } from "../../document/section.ts";
import { boreArea } from "../../formulas/circle.ts";
import { froudeFull } from "../../formulas/froude.ts";
import { g } from "../../formulas/gravity.ts";
import { corrugatedManningN, partFullDepth, plasticManningN } from "../../formulas/manning.ts";
import { hazenWilliamsRange } from "../../formulas/range.ts";
import type { PipeModel } from "../../network/network.ts";
import { samePlace } from "../../network/pipeModel.ts";
import { GravityLink } from "../links/gravityLink.ts";
import { outside } from "../links/link.ts";
import { atRest, settle } from "../rest.ts";
import type { Control, PipeReading, Regime } from "../running.ts";
import type { Steady } from "../steady.ts";
import type { Fluid } from "./fluid.ts";
import { extremes, gradeLine } from "./gradeLine.ts";
import { fittingsOn, lengthOf, lossesByFormula, openingHeadsOn } from "./losses.ts";

interface Standing {
  /** nodes at which air stands */
  readonly airy: ReadonlySet<number>;
  /** whether the pipe hangs on water of a known level; a closed ring's pressure is whatever it was filled to */
  readonly hasPressure: boolean;
}

export function pipeReading(
  state: Steady,
  pipe: PipeModel,
  fluid: Fluid,
  { airy, hasPressure }: Standing,
): PipeReading {
  const { bore } = pipe.pipe;
  const area = boreArea(bore);
  const flows = pipe.stretches.map((stretch) => settle(stretch.link.Q));
  const flow = flows[0] ?? 0;
  const velocity = Math.abs(flow) / area;
  const reynolds = (velocity * bore) / fluid.kinematic;
  const friction = lossesByFormula(state.network.section, pipe, fluid);
  let frictionLoss = 0;
  let otherFormulaLoss = 0;
  let fittingLoss = 0;
  pipe.stretches.forEach((stretch, k) => {
    const Q = flows[k] as number;
    const length = lengthOf(pipe, stretch);
    frictionLoss += Math.abs(friction.used(Q)) * length;
    otherFormulaLoss += Math.abs(friction.other(Q)) * length;
    fittingLoss += (fittingsOn(pipe, stretch, Q) * (Q / area) ** 2) / (2 * g) + openingHeadsOn(pipe, stretch, Q);
  });
  const length = pipe.drawn + pipe.extra;
  const gravity = pipe.runs === "gravity";
  const found = gradeLine(state, pipe, flows, friction.used, airy);
  const line = hasPressure || gravity ? found : found.map((point) => ({ ...point, grade: null }));
  const carrying = pipe.stretches[0]?.link;
  const n = pipeMaterial(pipe.pipe) === "corrugated" ? corrugatedManningN : plasticManningN;
  const greatest = Math.max(...flows.map(Math.abs), 0);
  const runs = gravity ? nearLevelFill(pipe, greatest, n) : null;
  return {
    flow,
    velocity,
    reynolds,
    regime: regimeOf(reynolds),
    frictionLoss,
    fittingLoss,
    lossPerMetre: length > 0 ? frictionLoss / length : 0,
    otherFormulaLoss,
    ...extremes(line, gravity),
    length,
    runs: pipe.runs,
    control: carrying instanceof GravityLink ? controlOf(state, pipe) : "none",
    froude: gravity ? froudeFull(greatest, bore) : null,
    fillRatio: runs,
    outsideRange: rangeReasons(
      state.network.section,
      flows.map((Q) => Math.abs(Q) / area),
      bore,
      fluid,
    ),
    gradeLine: line,
    stretches: pipe.stretches.map((stretch, k) => [stretch.start, stretch.end, flows[k] as number]),
  };
}

/** Of any stretch between tees in which water flows.
 * @param velocities m/s by stretch */
function rangeReasons(section: Section, velocities: readonly number[], D: number, fluid: Fluid): readonly string[] {
  if (siteOf(section).friction !== "hazen-williams") return [];
  const reasons = velocities
    .filter((V) => V > 0)
    .flatMap((V) => hazenWilliamsRange({ Re: (V * D) / fluid.kinematic, D, V, T: fluid.temperature }));
  return [...new Set(reasons)];
}

const regimeOf = (Re: number): Regime => (Re < 2000 ? "laminar" : Re <= 4000 ? "transitional" : "turbulent");

function controlOf(state: Steady, pipe: PipeModel): Control {
  let control: Control = "none";
  let worst = 0;
  for (const { link } of pipe.stretches) {
    if (!(link instanceof GravityLink) || Math.abs(link.Q) < atRest || Math.abs(link.Q) <= worst + atRest) continue;
    worst = Math.abs(link.Q);
    control = controlPast(state, pipe, link);
  }
  return control;
}

/** What controls a stretch; where that is the water that stands past it, at a vent that takes none of it, what holds
 * this up in turn. */
function controlPast(state: Steady, { stretches }: PipeModel, first: GravityLink): Control {
  const way = Math.sign(first.Q);
  const links = (way > 0 ? stretches : stretches.toReversed()).map(({ link }) => link);
  let control: Control = "none";
  for (const link of links.slice(links.indexOf(first))) {
    if (!(link instanceof GravityLink) || Math.abs(link.Q - first.Q) > atRest) break;
    const law = way > 0 ? link.forward : link.backward;
    const down = way > 0 ? link.j : link.i;
    const receiving = down === outside ? Number.NEGATIVE_INFINITY : (state.system.head[down] as number);
    control = law?.controlAt(Math.abs(link.Q), receiving) ?? "none";
    if (control !== "outlet") break;
  }
  return control;
}

/** Deepest part-full run by Manning, from each near-level run's own fall (steeper than 1 in 5 is no run but a leg). */
export function nearLevelFill(pipe: PipeModel, flow: number, n: number): number | null {
  if (flow === 0) return null;
  let deepest: number | null = null;
  const forward = (pipe.stretches[0]?.link.Q ?? 0) >= 0;
  for (let k = 1; k < pipe.line.length; k++) {
    const a = pipe.line[k - 1] as readonly [number, number];
    const b = pipe.line[k] as readonly [number, number];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const fall = ((forward ? a[1] - b[1] : b[1] - a[1]) || 0) / length;
    if (!(length > samePlace) || fall > 0.2 || fall < -0.2) continue;
    const depth = fall > 0 ? (partFullDepth(flow, pipe.pipe.bore, fall, n) ?? 1) : 1;
    deepest = Math.max(deepest ?? 0, Math.min(1, depth));
  }
  return deepest;
}
