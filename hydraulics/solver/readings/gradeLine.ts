/** The hydraulic grade line along a pipe, and the pressures that follow from it.
 *     grade = H − V²/2g        pressure head = grade − z        m, V in the pipe's own bore (energy equation)
 * At a place of loss there are two points, before it and past it. A change of bore has one of its sides in the other
 * pipe, where V is another: of that one only the side in this pipe is shown. */
import { placeAt } from "../../document/geometry.ts";
import { boreArea } from "../../formulas/circle.ts";
import { velocityHead } from "../../formulas/totalHead.ts";
import type { Bears, PipeModel, StretchModel } from "../../network/network.ts";
import { distinct, samePlace } from "../../network/pipeModel.ts";
import { isDryOver } from "../branchAir.ts";
import { atRest, settle } from "../rest.ts";
import type { GradePoint } from "../running.ts";
import { gravityPressureHead, type Steady } from "../steady.ts";
import { bearsOfStretch, openingHeadAt } from "./losses.ts";

export function gradeLine(
  state: Steady,
  pipe: PipeModel,
  flows: readonly number[],
  perMetre: (Q: number) => number,
  airy: ReadonlySet<number>,
): readonly GradePoint[] {
  return pipe.runs === "gravity" ? gravityGrade(state, pipe, flows) : fullGrade(state, pipe, flows, perMetre, airy);
}

/** Places where the grade line bends: each vertex, each loss and each end of a stretch. */
function gradePlaces(pipe: PipeModel): number[] {
  const places = [0, pipe.drawn];
  let at = 0;
  for (let k = 1; k < pipe.line.length; k++) {
    const a = pipe.line[k - 1] as readonly [number, number];
    const b = pipe.line[k] as readonly [number, number];
    at += Math.hypot(b[0] - a[0], b[1] - a[1]);
    places.push(Math.min(at, pipe.drawn));
  }
  for (const item of pipe.bears) places.push(item.at);
  places.push(...pipe.shutAt);
  for (const stretch of pipe.stretches) places.push(stretch.start, stretch.end);
  return distinct(places);
}

function fullGrade(
  state: Steady,
  pipe: PipeModel,
  flows: readonly number[],
  perMetre: (Q: number) => number,
  airy: ReadonlySet<number>,
): GradePoint[] {
  const area = boreArea(pipe.pipe.bore);
  const points: GradePoint[] = [];
  const places = gradePlaces(pipe);
  const partlyEmpty = emptyLegs(state, pipe, flows, airy);
  pipe.stretches.forEach((stretch, k) => {
    const Q = flows[k] as number;
    const kinetic = velocityHead(Q / area);
    let head = state.system.head[stretch.i] as number;
    let was = stretch.start;
    // Extra length lies at the `from` end, as the listed fittings do: its loss shows past the first point.
    let extra = stretch === pipe.stretches[0] ? pipe.extra : 0;
    const add = (at: number) => {
      const [x, z] = placeAt(pipe.line, at);
      const grade = head - kinetic;
      points.push({ at, x, z, grade: partlyEmpty[k] ? Math.max(grade, z) : grade });
    };
    const lose = (item: Bears) => {
      head -= Math.sign(Q) * (Q > 0 ? item.kForward : item.kBackward) * kinetic;
    };
    const bears = bearsOfStretch(pipe, stretch);
    let borne = 0;
    const shut = shutPlace(pipe, bears, stretch);
    for (const at of places) {
      if (at < stretch.start - samePlace || at > stretch.end + samePlace) continue;
      head -= perMetre(Q) * (at - was);
      was = at;
      const found = bears.slice(borne).filter((item) => item.at <= at + samePlace);
      borne += found.length;
      const here = found.filter(({ what }) => what !== "bore");
      // At the `from` end the water of this pipe is past the change;
      // at the `to` end the change lies past its last point.
      if (at <= samePlace) for (const item of found) if (item.what === "bore") lose(item);
      add(at);
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
        lose(item);
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
export function emptyLegs(
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
  if (isDryOver(state, pipe, "from")) empty.fill(true, 0, flowing < 0 ? empty.length : flowing);
  if (isDryOver(state, pipe, "to")) empty.fill(true, flows.findLastIndex((Q) => Q !== 0) + 1);
  return empty;
}

/** The nodes at which air stands: on the air's side of each air point (the lower one, or both where nothing passes), at
 * a mouth that snatches air because its pump could lift more than enters there, and on from there by whatever pipe the
 * water takes, as long as it does not stand over the axis again. */
export function airyNodes({ network, system }: Pick<Steady, "network" | "system">): ReadonlySet<number> {
  const { vents, branchAir, pipes } = network;
  const nodes = new Set<number>();
  for (const link of [...[...vents.values()].map(({ airPoint }) => airPoint), ...branchAir.map(({ link }) => link)]) {
    if (!link || link.state === "whole") continue;
    if (link.state === "rest" || link.Q >= 0) nodes.add(link.j);
    if (link.state === "rest" || link.Q < 0) nodes.add(link.i);
  }
  for (const { mouthFrom, mouthTo } of pipes.values())
    for (const mouth of [mouthFrom, mouthTo]) if (mouth?.state === "edge" && mouth.Q > atRest) nodes.add(mouth.j);
  if (nodes.size === 0) return nodes;
  const leads = new Map<number, number[]>();
  const lead = (from: number, to: number) => leads.set(from, [...(leads.get(from) ?? []), to]);
  for (const { runs, stretches } of pipes.values()) {
    if (runs !== "full") continue;
    for (const { i, j, link } of stretches) {
      if (settle(link.Q) >= 0) lead(i, j);
      if (settle(link.Q) <= 0) lead(j, i);
    }
  }
  const isUnder = (node: number) => (system.head[node] as number) < (network.nodes[node]?.head as number);
  // A set takes what is added while it is walked.
  for (const node of nodes) if (isUnder(node)) for (const next of leads.get(node) ?? []) nodes.add(next);
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

export function extremes(line: readonly GradePoint[], gravity: boolean) {
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
