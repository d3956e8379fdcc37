/** What a group of pipes is to water at rest: junctions and ends with the levels that bar them, stretches with gates.
 *
 * In a full line only an ample vent's tee bars the way; in a gravity line every invert does. */
import { isStuckOpen, mouthOf, openingHeadOf, valveOpen, valveRole } from "../document/defaults.ts";
import { lineLength, pipeLine, placeAt } from "../document/geometry.ts";
import { isBody, isDevice } from "../document/isKind.ts";
import { joinedTo } from "../document/joints.ts";
import { samePlace } from "../document/limits.ts";
import type { Part, PartId, Pipe, PipeEnd, Point, Pump, Section, Vent } from "../document/section.ts";
import type { Group } from "./closedFormGroups.ts";
import { crestOfRoute, routeFrom } from "./closedFormRoute.ts";
import type { VentRating } from "./powerCut.ts";

export type Destination = PartId | "ground";

export interface Bar {
  readonly level: number;
  readonly part: PartId;
  readonly why: string;
}

export interface Rules {
  readonly ventRatings: ReadonlyMap<PartId, VentRating>;
  readonly checkValves: "sound" | "takenOut";
  /** gravity pipes followed as full lines: bottom draws that may pull */
  readonly pulling: ReadonlySet<PartId>;
  /** leaves out flush pipes and vents: what section 8 calls outlets */
  readonly outletsOnly?: boolean;
}

/** Lowest point of a mouth: where it counts as uncovered. */
const lowestPoint = (pipe: Pipe, end: Extract<PipeEnd, { part: PartId }>): number =>
  (end.z ?? 0) - (mouthOf(end) === "side" ? pipe.bore / 2 : 0);

interface Gate {
  readonly id: PartId;
  readonly shut: boolean;
  /** passes only from `from` to `to` */
  readonly oneWay: boolean;
  readonly opening: number;
}

export interface Edge {
  readonly to: number;
  readonly gates: readonly Gate[];
  readonly along: boolean;
}

export interface Node {
  readonly edges: Edge[];
  /** what a way that comes by here has to rise over */
  bar: Bar | null;
  vent: Vent | null;
  /** an end in a body or in the air */
  end: {
    readonly to: Destination;
    readonly bar: Bar;
    readonly mouth: number;
    readonly via: PartId;
    readonly restart: number;
  } | null;
}

export class Graph {
  readonly nodes: Node[] = [];

  add(bar: Bar | null = null): number {
    return this.nodes.push({ edges: [], bar, vent: null, end: null }) - 1;
  }

  join(a: number, b: number, gates: readonly Gate[] = []): void {
    this.nodes[a]?.edges.push({ to: b, gates, along: true });
    this.nodes[b]?.edges.push({ to: a, gates, along: false });
  }
}

interface Station {
  readonly at: number;
  readonly gate?: Gate;
  readonly bar?: Bar | null;
  readonly vent?: Vent;
  /** a tee's key */
  readonly tee?: string;
}

const teeKey = (pipe: PartId, end: "from" | "to"): string => `${pipe} ${end}`;

/** A pipe end's key among what stands on other pipes, and the devices on each pipe, gathered once. */
function standingOn(section: Section): ReadonlyMap<PartId, readonly (Part | { tee: string; at: number })[]> {
  const on = new Map<PartId, (Part | { tee: string; at: number })[]>();
  const put = (pipe: PartId, what: Part | { tee: string; at: number }) => {
    const there = on.get(pipe);
    if (there) there.push(what);
    else on.set(pipe, [what]);
  };
  for (const part of section.parts.values()) {
    if (isDevice(part)) put(part.on.pipe, part);
    if (part.kind !== "pipe") continue;
    for (const side of ["from", "to"] as const) {
      const end = part[side];
      if ("pipe" in end) put(end.pipe, { tee: teeKey(part.id, side), at: end.at });
    }
  }
  return on;
}

function stationsOf(
  section: Section,
  pipe: Pipe,
  standing: readonly (Part | { tee: string; at: number })[],
  full: boolean,
  rules: Rules,
): Station[] {
  const line = pipeLine(section, pipe);
  const invertBar = (z: number, why: string): Bar | null =>
    full ? null : { level: z - pipe.bore / 2, part: pipe.id, why };
  const stations: Station[] = [];
  let at = 0;
  for (let i = 1; i < line.length - 1; i++) {
    at += lineLength([line[i - 1] as Point, line[i] as Point]);
    stations.push({ at, bar: invertBar((line[i] as Point)[1], "the invert at a bend of its route") });
  }
  for (const thing of standing) {
    if ("tee" in thing) {
      stations.push({
        at: thing.at,
        tee: thing.tee,
        bar: invertBar(placeAt(line, thing.at)[1], "the invert at a tee"),
      });
    } else if (thing.kind === "vent") {
      const tee = placeAt(line, thing.on.at)[1];
      const ample = full && rules.ventRatings.get(thing.id) === "ample";
      stations.push({
        at: thing.on.at,
        vent: thing,
        bar: ample ? { level: tee, part: thing.id, why: "the tee of an ample vent" } : null,
      });
    } else if (thing.kind === "valve") {
      const gate = { id: thing.id, shut: valveOpen(thing) === 0, oneWay: false, opening: 0 };
      stations.push({ at: thing.on.at, gate });
    } else if (thing.kind === "checkValve" && rules.checkValves === "sound" && !isStuckOpen(thing)) {
      stations.push({
        at: thing.on.at,
        gate: { id: thing.id, shut: false, oneWay: true, opening: openingHeadOf(thing) },
      });
    }
  }
  // Junctions before gates at one place, so that the order does not hang on the file; a vent at a joint stands on the
  // way from one pipe into the other.
  const whole = lineLength(line);
  const order = ({ gate, tee, at }: Station): number =>
    gate !== undefined ? 3 : tee === undefined ? 1 : at > whole - samePlace ? 2 : at < samePlace ? 0 : 1;
  return stations.sort((a, b) => (Math.abs(a.at - b.at) < samePlace ? order(a) - order(b) : a.at - b.at));
}

/** Whether an end in the air faces up or down: its last leg is steeper than it is flat. The notes give an end in the
 * air no mouth; an upright end brims at z, a level one at its invert. */
function facesUpright(line: readonly Point[], side: "from" | "to"): boolean {
  const [end, next] = side === "from" ? [line[0], line[1]] : [line.at(-1), line.at(-2)];
  if (!end || !next) return false;
  return Math.abs(next[1] - end[1]) > Math.abs(next[0] - end[0]);
}

export function buildGraph(section: Section, group: Group, full: boolean, rules: Rules): Graph {
  const graph = new Graph();
  const standing = standingOnOnce(section);
  const teeNodes = new Map<string, number>();
  const endNodes = new Map<string, number>();
  for (const pipe of group.pipes) {
    const things = standing.get(pipe.id) ?? [];
    if (rules.outletsOnly && isFlush(things)) continue;
    const line = pipeLine(section, pipe);
    let before = graph.add();
    endNodes.set(teeKey(pipe.id, "from"), before);
    let gates: Gate[] = [];
    for (const station of stationsOf(section, pipe, things, full, rules)) {
      if (station.gate) {
        gates.push(station.gate);
        continue;
      }
      const node = graph.add(station.bar ?? null);
      if (station.vent) (graph.nodes[node] as Node).vent = station.vent;
      if (station.tee) teeNodes.set(station.tee, node);
      graph.join(before, node, gates);
      gates = [];
      before = node;
    }
    const last = graph.add();
    graph.join(before, last, gates);
    endNodes.set(teeKey(pipe.id, "to"), last);
    for (const side of ["from", "to"] as const) {
      const node = graph.nodes[endNodes.get(teeKey(pipe.id, side)) as number] as Node;
      const end = pipe[side];
      if ("open" in end) {
        // What is joined at its very end closes it; the tee's station there leads on.
        if (joinedTo(section, { pipe: pipe.id, side }).length > 0) continue;
        const level = full || facesUpright(line, side) ? end.z : end.z - pipe.bore / 2;
        node.end = {
          to: "ground",
          bar: { level, part: pipe.id, why: "its end in the air" },
          mouth: Number.POSITIVE_INFINITY,
          via: pipe.id,
          restart: 0,
        };
      } else if ("pipe" in end) {
        const z = (side === "from" ? line[0] : line.at(-1))?.[1] ?? 0;
        if (!full) node.bar = { level: z - pipe.bore / 2, part: pipe.id, why: "the invert at its tee" };
      } else if (isBody(section.parts.get(end.part))) {
        const mouth = lowestPoint(pipe, end);
        // A full side mouth discharges against its axis, a part-full one runs off at its invert.
        const level = full ? (end.z ?? 0) : mouth;
        const crest = crestOfRoute(section, routeFrom(section, pipe, side));
        const restart = crest > (end.z ?? 0) + 1e-9 ? crest : mouth + 0.005;
        node.end = { to: end.part, bar: { level, part: pipe.id, why: "its far end" }, mouth, via: pipe.id, restart };
      }
    }
  }
  for (const [key, node] of endNodes) {
    const tee = teeNodes.get(key);
    if (tee !== undefined) graph.join(node, tee);
  }
  for (const pump of group.pumps) joinPump(graph, group, pump, endNodes);
  return graph;
}

function joinPump(graph: Graph, group: Group, pump: Pump, endNodes: ReadonlyMap<string, number>): void {
  const [inlet, outlet] = [graph.add(), graph.add()];
  graph.join(inlet, outlet);
  if (pump.in !== undefined) {
    const bar = { level: pump.z, part: pump.id, why: "the pump's intake" };
    (graph.nodes[inlet] as Node).end = { to: pump.in, bar, mouth: pump.z, via: pump.id, restart: pump.z + 0.005 };
  }
  for (const pipe of group.pipes) {
    const [from, to] = [endNodes.get(teeKey(pipe.id, "from")), endNodes.get(teeKey(pipe.id, "to"))];
    if ("part" in pipe.from && pipe.from.part === pump.id && from !== undefined) graph.join(outlet, from);
    if ("part" in pipe.to && pipe.to.part === pump.id && to !== undefined) graph.join(inlet, to);
  }
}

const standings = new WeakMap<Section, ReturnType<typeof standingOn>>();
function standingOnOnce(section: Section): ReturnType<typeof standingOn> {
  const known = standings.get(section);
  if (known) return known;
  const on = standingOn(section);
  standings.set(section, on);
  return on;
}

const isFlush = (things: readonly (Part | { tee: string; at: number })[]): boolean =>
  things.some((thing) => "kind" in thing && thing.kind === "valve" && valveRole(thing) === "flush");
