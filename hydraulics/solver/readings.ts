/** The running state in numbers that a person can use: solution → readings, part by part. */
import { openingHeadOf, pipeC, pipeRoughness, pumpSpeed, siteOf, ventOpen } from "../document/defaults.ts";
import { placeAt } from "../document/geometry.ts";
import type { PartId, Section, Vessel } from "../document/section.ts";
import { bedSlices, planArea, waterVolume } from "../document/volumes.ts";
import { darcyWeisbach } from "../elements/darcyWeisbach.ts";
import { hazenWilliams } from "../elements/hazenWilliams.ts";
import { entranceK, exitK } from "../formulas/fittingK.ts";
import { g } from "../formulas/gravity.ts";
import { partFullDepth } from "../formulas/manning.ts";
import { hazenWilliamsRange } from "../formulas/range.ts";
import { settlingDiameter } from "../formulas/stokes.ts";
import { stoneDensity } from "../formulas/stoneDensity.ts";
import { ampleBore } from "../formulas/ventPassage.ts";
import { kinematicViscosity, waterDensity, waterViscosity } from "../formulas/water.ts";
import { bearsOn } from "../network/bearsOn.ts";
import type {
  Bears,
  BodyModel,
  Network,
  PipeEndModel,
  PipeModel,
  PumpModel,
  StretchModel,
  VentModel,
} from "../network/network.ts";
import { samePlace } from "../network/pipeModel.ts";
import { greatestFlow } from "../network/pumps.ts";
import { GravityLink } from "./links/gravityLink.ts";
import { outside } from "./links/link.ts";
import { capacityOf, outletsOf } from "./outlets.ts";
import { restingLevel } from "./restingLevel.ts";
import type {
  Control,
  GradePoint,
  PipeReading,
  PondReading,
  PumpReading,
  Regime,
  RunningState,
  SpillwayReading,
  VentReading,
  VesselReading,
} from "./running.ts";
import { arriving, atRest, gravityPressureHead, isDryFrom, type Steady, stretchesAt } from "./steady.ts";

/** Flows smaller than this are a trace left by what is shut, and are 0. */
const settle = (Q: number): number => (Math.abs(Q) < atRest ? 0 : Q);

export interface Delivered {
  readonly range: ReadonlyMap<PartId, readonly [number, number]>;
  readonly straight: ReadonlyMap<PartId, number>;
}

export function readings(state: Steady, delivered: Delivered): RunningState {
  const { network } = state;
  const fluid = fluidOf(network.section);
  const pipes = new Map<PartId, PipeReading>();
  const airy = airyNodes(network);
  for (const [id, pipe] of network.pipes) pipes.set(id, pipeReading(state, pipe, fluid, airy));
  const inflows = bodyInflows(network);
  const net = netInto(inflows);
  const lost = lostByPond(network, net);
  const spills = new Map<PartId, VentReading>();
  for (const [id, vent] of network.vents) spills.set(id, ventReading(state, vent));
  return {
    converged: true,
    pumps: new Map(
      [...network.pumps].map(([id, pump]) => [id, pumpReading(state, pump, pipes, delivered, fluid.density)]),
    ),
    pipes,
    vessels: new Map(
      [...network.bodies.values()].flatMap((body) =>
        body.body.kind === "vessel" ? [[body.body.id, vesselReading(state, body, body.body, inflows, fluid)]] : [],
      ),
    ),
    vents: spills,
    ponds: new Map(
      [...network.bodies.values()].flatMap(({ body, surface }) => {
        if (body.kind !== "pond") return [];
        const reading: PondReading = {
          level: state.system.head[surface] as number,
          volume: waterVolume(body, state.system.head[surface] as number),
          netInflow: settle(net.get(body.id) ?? 0),
          lossToGround: settle(lost.get(body.id) ?? 0),
        };
        return [[body.id, reading] as const];
      }),
    ),
    spillways: new Map(
      [...network.spillways].map(([id, { spillway, link }]): [PartId, SpillwayReading] => {
        const head = Math.max(0, (state.system.head[link.i] as number) - spillway.crestZ);
        return [id, { flow: settle(link.Q), head, perWidth: Math.abs(settle(link.Q)) / spillway.width }];
      }),
    ),
    iterations: state.iterations,
    residual: { balance: state.solved.balance, loss: state.solved.loss },
  };
}

interface Fluid {
  readonly density: number;
  readonly kinematic: number;
  readonly dynamic: number;
  readonly temperature: number;
}

function fluidOf(section: Section): Fluid {
  const temperature = siteOf(section).waterTemperature;
  return {
    temperature,
    density: waterDensity(temperature),
    kinematic: kinematicViscosity(temperature),
    dynamic: waterViscosity(temperature),
  };
}

// Pipes ————————————————————————————————————————————————————————————————————————————————————————————

function pipeReading(state: Steady, pipe: PipeModel, fluid: Fluid, airy: ReadonlySet<number>): PipeReading {
  const { bore } = pipe.pipe;
  const area = (Math.PI * bore ** 2) / 4;
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
  const line = gravity ? gravityGrade(state, pipe, flows) : fullGrade(state, pipe, flows, friction.used, airy);
  const carrying = pipe.stretches[0]?.link;
  const runs = gravity ? nearLevelFill(pipe, Math.max(...flows.map(Math.abs), 0)) : null;
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
    froude: gravity ? velocity / Math.sqrt(g * bore) : null,
    fillRatio: runs,
    outsideRange: flow === 0 ? [] : rangeReasons(state.network.section, reynolds, bore, velocity, fluid.temperature),
    gradeLine: line,
    stretches: pipe.stretches.map((stretch, k) => [stretch.start, stretch.end, flows[k] as number]),
  };
}

const rangeReasons = (section: Section, Re: number, D: number, V: number, T: number): readonly string[] =>
  siteOf(section).friction === "hazen-williams" ? hazenWilliamsRange({ Re, D, V, T }) : [];

export const regimeOf = (Re: number): Regime => (Re < 2000 ? "laminar" : Re <= 4000 ? "transitional" : "turbulent");

const lengthOf = (pipe: PipeModel, stretch: StretchModel): number =>
  stretch.end - stretch.start + (stretch === pipe.stretches[0] ? pipe.extra : 0);

/** m lost in a metre of pipe, by the formula in use and by the other one. */
function lossesByFormula(section: Section, pipe: PipeModel, fluid: Fluid) {
  const D = pipe.pipe.bore;
  const byHazenWilliams = hazenWilliams.build({ L: 1, D, C: pipeC(pipe.pipe) });
  const byDarcy = darcyWeisbach.build({ L: 1, D, roughness: pipeRoughness(pipe.pipe), viscosity: fluid.kinematic });
  const isUsed = siteOf(section).friction === "hazen-williams";
  return {
    used: (Q: number) => (isUsed ? byHazenWilliams : byDarcy).loss(Q),
    other: (Q: number) => (isUsed ? byDarcy : byHazenWilliams).loss(Q),
  };
}

/** ΣK on a stretch for the way the water goes, its entrance and exit included. */
function fittingsOn(pipe: PipeModel, stretch: StretchModel, Q: number): number {
  if (Q === 0) return 0;
  let k = 0;
  for (const item of bearsOfStretch(pipe, stretch)) k += Q > 0 ? item.kForward : item.kBackward;
  if (stretch === pipe.stretches[0]) k += endK(pipe.from, Q > 0);
  if (stretch === pipe.stretches.at(-1)) k += endK(pipe.to, Q < 0);
  return k;
}

const bearsOfStretch = (pipe: PipeModel, stretch: StretchModel): readonly Bears[] =>
  bearsOn(pipe, { start: stretch.start, end: stretch.end, startIsEnd: stretch === pipe.stretches[0] });

function endK(end: PipeEndModel, entering: boolean): number {
  if (end.kind === "air") return entering ? 0 : exitK;
  if (end.kind !== "body") return 0;
  return entering ? entranceK(end.opening.mouth) : exitK;
}

/** m that the check valves on a stretch take, besides their K, to be lifted by water going their way. */
const openingHeadsOn = (pipe: PipeModel, stretch: StretchModel, Q: number): number =>
  bearsOfStretch(pipe, stretch).reduce((sum, item) => sum + openingHeadAt(pipe, item, Q), 0);

/** One that is stuck open takes none. */
function openingHeadAt(pipe: PipeModel, { valve }: Bears, Q: number): number {
  const check = pipe.checks.find((each) => each.valve === valve);
  return Q > 0 && check ? openingHeadOf(check.valve) : 0;
}

function controlOf(state: Steady, pipe: PipeModel): Control {
  let control: Control = "none";
  let worst = 0;
  for (const { link } of pipe.stretches) {
    if (!(link instanceof GravityLink) || Math.abs(link.Q) < atRest || Math.abs(link.Q) <= worst) continue;
    const law = link.Q > 0 ? link.forward : link.backward;
    const down = link.Q > 0 ? link.j : link.i;
    worst = Math.abs(link.Q);
    control =
      law?.controlAt(worst, down === outside ? Number.NEGATIVE_INFINITY : (state.system.head[down] as number)) ??
      "none";
  }
  return control;
}

/** Places where the grade line bends: each vertex, each loss and each end of a stretch. */
function gradePlaces(pipe: PipeModel): number[] {
  const places = new Set<number>([0, pipe.drawn]);
  let at = 0;
  for (let k = 1; k < pipe.line.length; k++) {
    const a = pipe.line[k - 1] as readonly [number, number];
    const b = pipe.line[k] as readonly [number, number];
    at += Math.hypot(b[0] - a[0], b[1] - a[1]);
    places.add(Math.min(at, pipe.drawn));
  }
  for (const item of pipe.bears) places.add(item.at);
  for (const at of pipe.shutAt) places.add(at);
  for (const stretch of pipe.stretches) places.add(stretch.start).add(stretch.end);
  return [...places].sort((a, b) => a - b).filter((at, k, all) => k === 0 || at - (all[k - 1] as number) > samePlace);
}

function fullGrade(
  state: Steady,
  pipe: PipeModel,
  flows: readonly number[],
  perMetre: (Q: number) => number,
  airy: ReadonlySet<number>,
): GradePoint[] {
  const area = (Math.PI * pipe.pipe.bore ** 2) / 4;
  const points: GradePoint[] = [];
  const partlyEmpty = emptyLegs(state, pipe, flows, airy);
  pipe.stretches.forEach((stretch, k) => {
    const Q = flows[k] as number;
    const velocityHead = (Q / area) ** 2 / (2 * g);
    let head = state.system.head[stretch.i] as number;
    let was = stretch.start;
    // Extra length lies at the `from` end, as the listed fittings do: its loss shows past the first point.
    let extra = stretch === pipe.stretches[0] ? pipe.extra : 0;
    const add = (at: number) => {
      const [x, z] = placeAt(pipe.line, at);
      const grade = head - velocityHead;
      points.push({ at, x, z, grade: partlyEmpty[k] ? Math.max(grade, z) : grade });
    };
    const bears = bearsOfStretch(pipe, stretch);
    let borne = 0;
    const shut = shutPlace(pipe, bears, stretch);
    for (const at of gradePlaces(pipe).filter(
      (place) => place >= stretch.start - samePlace && place <= stretch.end + samePlace,
    )) {
      head -= perMetre(Q) * (at - was);
      was = at;
      add(at);
      const here = bears.slice(borne).filter((item) => item.at <= at + samePlace);
      borne += here.length;
      if (Q === 0) {
        if (Math.abs(at - shut) > samePlace) continue;
        head = state.system.head[stretch.j] as number;
        add(at);
        continue;
      }
      if (here.length === 0 && extra === 0) continue;
      head -= perMetre(Q) * extra;
      extra = 0;
      for (const item of here) {
        head -= Math.sign(Q) * (Q > 0 ? item.kForward : item.kBackward) * velocityHead;
        head -= openingHeadAt(pipe, item, Q);
      }
      add(at);
    }
  });
  return points;
}

/** Where a stretch without flow is shut, by its first shut valve or check valve: the heads on the two sides are two. */
function shutPlace(pipe: PipeModel, bears: readonly Bears[], { start, end }: StretchModel): number {
  const flaps = bears.filter(({ valve }) => pipe.checks.some((each) => each.valve === valve)).map(({ at }) => at);
  const valves = pipe.shutAt.filter((at) => at > start - samePlace && at <= end + samePlace);
  return Math.min(...flaps, ...valves);
}

/** Stretches in which air stands, so that no suction does: past a place where it comes in, and dry from an open end. */
function emptyLegs(
  state: Steady,
  pipe: PipeModel,
  flows: readonly number[],
  airy: ReadonlySet<number>,
): readonly boolean[] {
  const empty = pipe.stretches.map((): boolean => false);
  pipe.stretches.forEach((stretch, k) => {
    const Q = flows[k] as number;
    if (airy.has(stretch.i) && Q >= 0) empty.fill(true, k);
    if (airy.has(stretch.j) && Q <= 0) empty.fill(true, 0, k + 1);
  });
  const flowing = flows.findIndex((Q) => Q !== 0);
  if (isDryFrom(state, pipe, "from")) empty.fill(true, 0, flowing < 0 ? empty.length : flowing);
  if (isDryFrom(state, pipe, "to")) empty.fill(true, flows.findLastIndex((Q) => Q !== 0) + 1);
  return empty;
}

/** The nodes on the air's side of each air point: the lower one, or both where nothing passes. */
function airyNodes({ vents, branchAir }: Network): ReadonlySet<number> {
  const nodes = new Set<number>();
  for (const link of [...[...vents.values()].map(({ airPoint }) => airPoint), ...branchAir.map(({ link }) => link)]) {
    if (!link || link.state === "whole") continue;
    if (link.state === "rest" || link.Q >= 0) nodes.add(link.j);
    if (link.state === "rest" || link.Q < 0) nodes.add(link.i);
  }
  return nodes;
}

function gravityGrade(state: Steady, pipe: PipeModel, flows: readonly number[]): GradePoint[] {
  return gradePlaces(pipe).map((at) => {
    const [x, z] = placeAt(pipe.line, at);
    const k = pipe.stretches.findIndex((stretch) => at >= stretch.start - samePlace && at <= stretch.end + samePlace);
    if (!flows[k]) return { at, x, z, grade: null };
    const above = gravityPressureHead(state, { pipe: pipe.pipe.id, at, teeLevel: z });
    return { at, x, z, grade: above >= 0 ? z + above : null };
  });
}

function extremes(line: readonly GradePoint[], gravity: boolean) {
  let lowest: number | null = null;
  let lowestAt: number | null = null;
  let highest: number | null = null;
  let highestAt: number | null = null;
  for (const { at, z, grade } of line) {
    // Under its own water line a gravity pipe is open to the air: 0, never a suction.
    const head = grade === null ? (gravity ? 0 : null) : grade - z;
    if (head === null) continue;
    if (lowest === null || head < lowest) [lowest, lowestAt] = [head, at];
    if (highest === null || head > highest) [highest, highestAt] = [head, at];
  }
  return {
    lowestPressureHead: lowest,
    lowestPressureAt: lowestAt,
    highestPressureHead: highest,
    highestPressureAt: highestAt,
  };
}

/** Deepest part-full run by Manning, from each near-level run's own fall (steeper than 1 in 5 is no run but a leg). */
function nearLevelFill(pipe: PipeModel, flow: number): number | null {
  if (flow === 0) return null;
  let deepest: number | null = null;
  const forward = (pipe.stretches[0]?.link.Q ?? 0) >= 0;
  for (let k = 1; k < pipe.line.length; k++) {
    const a = pipe.line[k - 1] as readonly [number, number];
    const b = pipe.line[k] as readonly [number, number];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const fall = ((forward ? a[1] - b[1] : b[1] - a[1]) || 0) / length;
    if (!(length > samePlace) || fall > 0.2 || fall < -0.2) continue;
    const depth = fall > 0 ? (partFullDepth(flow, pipe.pipe.bore, fall) ?? 1) : 1;
    deepest = Math.max(deepest ?? 0, Math.min(1, depth));
  }
  return deepest;
}

// Pumps ————————————————————————————————————————————————————————————————————————————————————————————

function pumpReading(
  state: Steady,
  model: PumpModel,
  pipes: ReadonlyMap<PartId, PipeReading>,
  delivered: Delivered,
  density: number,
): PumpReading {
  const { pump, link, intake } = model;
  const site = siteOf(state.network.section);
  const flow = settle(link?.Q ?? 0);
  const running = link?.running ?? false;
  const head = running && link ? -link.law.loss(Math.max(0, flow)) : 0;
  const hydraulicPower = running ? density * g * Math.max(0, flow) * head : 0;
  const watts = pump.watts ?? null;
  const greatest = greatestFlow(pump);
  const surface = intake && intake.i !== outside ? (state.system.head[intake.i] as number) : null;
  const dry = running && surface !== null && surface <= pump.z + 1e-6 && flow <= atRest;
  const snatches = running && intake?.state === "edge";
  const suctions: number[] = [];
  for (const pipe of state.network.pipes.values()) {
    if (pipe.to.kind !== "pump" || pipe.to.pump !== pump.id) continue;
    const lowest = pipes.get(pipe.pipe.id)?.lowestPressureHead;
    if (typeof lowest === "number") suctions.push(lowest);
  }
  return {
    flow,
    head,
    hydraulicPower,
    flowRange: delivered.range.get(pump.id) ?? [flow, flow],
    shareOfGreatest: greatest > 0 && running ? flow / greatest : null,
    efficiency: watts !== null && watts > 0 && running ? hydraulicPower / watts : null,
    yearlyCost: watts !== null && running ? (watts / 1000) * 24 * 365 * site.tariff : null,
    straightLineFlow: delivered.straight.get(pump.id) ?? null,
    state: model.loose
      ? "loose"
      : pumpSpeed(pump) <= 0
        ? "off"
        : dry || snatches
          ? "dry"
          : flow <= atRest
            ? "shutOff"
            : flow > greatest
              ? "beyondCurve"
              : "delivers",
    lowestSuction: suctions.length > 0 ? Math.min(...suctions) : null,
  };
}

// Bodies ———————————————————————————————————————————————————————————————————————————————————————————

interface OpeningFlow {
  readonly body: PartId;
  readonly level: number;
  /** m³/s into the body */
  readonly into: number;
}

/** What enters (or leaves) bodies, opening by opening; rims and sills at the surface. */
export function bodyInflows(network: Network): readonly OpeningFlow[] {
  const flows: OpeningFlow[] = [];
  for (const pipe of network.pipes.values()) {
    const first = pipe.stretches[0];
    const last = pipe.stretches.at(-1);
    if (pipe.from.kind === "body") {
      flows.push({
        body: pipe.from.opening.body,
        level: pipe.from.opening.level,
        into: settle(-(pipe.mouthFrom?.Q ?? first?.link.Q ?? 0)),
      });
    }
    if (pipe.to.kind === "body") {
      flows.push({
        body: pipe.to.opening.body,
        level: pipe.to.opening.level,
        into: settle(pipe.mouthTo ? -pipe.mouthTo.Q : (last?.link.Q ?? 0)),
      });
    }
  }
  for (const { pump, intake } of network.pumps.values()) {
    if (intake && pump.in !== undefined) flows.push({ body: pump.in, level: pump.z, into: settle(-intake.Q) });
  }
  for (const { spillway, link } of network.spillways.values()) {
    flows.push({ body: spillway.from, level: spillway.crestZ, into: settle(-link.Q) });
    if (spillway.to !== "ground")
      flows.push({ body: spillway.to, level: Number.POSITIVE_INFINITY, into: settle(link.Q) });
  }
  for (const { spill, spillsTo } of network.vents.values()) {
    if (spill && spillsTo !== "ground")
      flows.push({ body: spillsTo, level: Number.POSITIVE_INFINITY, into: settle(spill.Q) });
  }
  for (const [id, { rim, body }] of network.bodies) {
    if (rim.Q <= atRest) continue;
    flows.push({ body: id, level: body.rimLevel, into: -rim.Q });
    for (const [other, model] of network.bodies)
      if (rim.j === model.surface && other !== id)
        flows.push({ body: other, level: Number.POSITIVE_INFINITY, into: rim.Q });
  }
  return flows;
}

/** m³/s into each body, of those that any opening speaks of. */
function netInto(inflows: readonly OpeningFlow[]): ReadonlyMap<PartId, number> {
  const net = new Map<PartId, number>();
  for (const { body, into } of inflows) net.set(body, (net.get(body) ?? 0) + into);
  return net;
}

/** Water that leaves for the ground for good, out of what the pond's pumps and pipes take: spills, rims, open ends.
 * With several ponds each answers for the losses of the lines and vessels that it feeds, in equal shares where
 * more than one does. */
function lostByPond(network: Network, net: ReadonlyMap<PartId, number>): ReadonlyMap<PartId, number> {
  const ponds = [...network.bodies.values()].filter(({ body }) => body.kind === "pond").map(({ body }) => body.id);
  let total = 0;
  for (const link of network.links) if (link.j === outside && link.Q > atRest) total += link.Q;
  for (const pipe of network.pipes.values()) {
    for (const mouth of [pipe.mouthFrom, pipe.mouthTo])
      if (mouth && mouth.i === outside) total += Math.max(0, -mouth.Q);
    const first = pipe.stretches[0]?.link;
    if (first && first.i === outside && first.Q < -atRest) total -= first.Q;
  }
  if (ponds.length <= 1) return new Map(ponds.map((id) => [id, total]));
  // Each pond's share by what it puts in, net.
  const gives = ponds.map((id): [PartId, number] => [id, Math.max(0, -(net.get(id) ?? 0))]);
  const sum = gives.reduce((all, [, give]) => all + give, 0);
  return new Map(gives.map(([id, give]) => [id, sum > 0 ? (total * give) / sum : total / ponds.length]));
}

function vesselReading(
  state: Steady,
  model: BodyModel,
  vessel: Vessel,
  inflows: readonly OpeningFlow[],
  fluid: Fluid,
): VesselReading {
  const level = state.system.head[model.surface] as number;
  const overflow = Math.max(0, settle(model.rim.Q));
  const overtops = overflow > 0;
  const mine = inflows.filter((flow) => flow.body === vessel.id);
  const inflow = mine.reduce((sum, flow) => sum + Math.max(0, flow.into), 0);
  const outlets = outletsOf(state, vessel);
  const capacity = capacityOf(state, vessel, outlets);
  const area = planArea(vessel);
  const shown = overtops ? vessel.rimLevel : level;
  const volume = waterVolume(vessel, shown);
  const gross = area * (vessel.rimLevel - vessel.baseLevel);
  const slices = bedSlices(vessel);
  const stone = slices.reduce((sum, { from, to, porosity }) => sum + (to - from) * area * (1 - porosity), 0);
  const upflow = greatestUpflow(mine, vessel, shown) / area;
  const bottom = model.column[0]?.node;
  return {
    level: shown,
    freeboard: vessel.rimLevel - shown,
    overtops,
    overflow,
    inflow,
    returnCapacity: capacity.flow,
    returnMargin: inflow > atRest ? capacity.flow / inflow : null,
    control: capacity.control,
    upflow,
    mediaLoss: bottom === undefined ? 0 : (state.system.head[bottom] as number) - level,
    waterVolume: volume,
    grossVolume: gross,
    filledMass: stone * stoneDensity + volume * fluid.density,
    turnover: inflow > atRest ? (inflow * 3600) / gross : null,
    retention: inflow > atRest ? volume / inflow : null,
    wettedSurface: slices.reduce(
      (sum, { from, to, grain, porosity }) =>
        sum + (Math.max(0, Math.min(to, shown) - from) * area * 6 * (1 - porosity)) / grain,
      0,
    ),
    settlingDiameter:
      upflow > 0 ? settlingDiameter(upflow, { viscosity: fluid.dynamic, density: fluid.density }) : null,
    restingLevel: restingLevel(state, vessel),
  };
}

/** m³/s, the greatest upward flow anywhere in the column: what enters below a level, net. */
function greatestUpflow(flows: readonly OpeningFlow[], vessel: Vessel, level: number): number {
  const under = flows.filter((flow) => flow.level < level).sort((a, b) => a.level - b.level);
  let sum = 0;
  let most = 0;
  for (const flow of under) {
    sum += flow.into;
    if (flow.level < vessel.rimLevel) most = Math.max(most, sum);
  }
  return settle(most);
}

// Vents ————————————————————————————————————————————————————————————————————————————————————————————

function ventReading(state: Steady, vent: VentModel): VentReading {
  const rating = state.ratings.get(vent.vent.id);
  const around = stretchesAt(state.network, vent);
  const passing = arriving(around);
  let pressureHead: number;
  if (vent.node < 0) pressureHead = gravityPressureHead(state, vent);
  else {
    // Of a cut line the side that the water comes from speaks.
    const cut = vent.airPoint;
    const node = cut && cut.Q < 0 ? cut.j : vent.node;
    pressureHead = (state.system.head[node] as number) - (passing / around.area) ** 2 / (2 * g) - vent.teeLevel;
    // Air stands at its tee, whether water comes up to it or not.
    if (cut && cut.state !== "whole") pressureHead = 0;
  }
  const spill = Math.max(0, settle(vent.spill?.Q ?? 0));
  const draws = vent.airPoint?.state === "free" || (vent.node >= 0 && pressureHead < -1e-9 && passing > 0);
  const riser = vent.endLevel - vent.teeLevel;
  return {
    pressureHead,
    state: spill > 0 ? "spills" : draws ? "drawsAir" : "stands",
    spill,
    spillsTo: spill > 0 ? vent.spillsTo : null,
    air: rating?.air ?? 0,
    credited: vent.airPoint !== null && vent.airPoint.state !== "whole",
    teeLevel: vent.teeLevel,
    ampleBore:
      rating && rating.suction > 0 && rating.passing > atRest
        ? ampleBore(rating.passing, rating.suction, ventOpen(vent.vent), riser)
        : null,
  };
}
