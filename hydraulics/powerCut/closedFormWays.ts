/** Every way by which water can leave a body at rest, each with the level that bars it.
 *
 * The judge's own reading of sections 6 to 8 of the design notes: it knows levels only (mouths, tees, inverts, ends,
 * crests, rims), no flow, no loss, and it shares no code with the simulation, so that each checks the other.
 *
 *   full line (its group has a pump)          gravity line (no pump in its group)
 *        ____tee____                               mouth ____
 *       |           |      passes any crest;      |___|      \____ vertex   nothing pulls: the highest
 *     mouth       end      only an ample vent's                \___ end     invert on the way bars it
 *                          tee bars it
 *
 * The bar of a way is the highest of what lies on it; of several ways between two ends the lowest bar counts. That is a
 * bottleneck path, found without listing the paths, so that meshes of pipes cost no more than trees. A spring check
 * valve that is passed forward lifts every bar behind it by its opening head. */
import { overflowOf, ventEnd, ventOpen } from "../document/defaults.ts";
import { drawnWidth, pipeLine, placeAt } from "../document/geometry.ts";
import { isBody } from "../document/isKind.ts";
import type { Body, PartId, Section, Vent } from "../document/section.ts";
import {
  type Bar,
  buildGraph,
  type Destination,
  type Edge,
  type Graph,
  type Node,
  type Rules,
} from "./closedFormGraph.ts";
import { bodiesOf, groupsOf } from "./closedFormGroups.ts";

export interface Way {
  readonly from: PartId;
  readonly to: Destination;
  /** what the water leaves the body by: a pipe, a pump, a spillway, or the body itself (its rim) */
  readonly via: PartId;
  /** the bar without the receiving level */
  readonly bar: Bar;
  /** opening heads of the spring valves on it: they come on top of the receiving level */
  readonly opening: number;
  /** lowest point of the mouth where a full line can break there; null for a way that needs no unbroken water */
  readonly mouth: number | null;
  /** the broken line starts again over this level */
  readonly restart: number;
}

/** More work than this and the judge says that it does not apply. */
const mostSteps = 400_000;

export interface Ways {
  readonly ways: readonly Way[];
  readonly complete: boolean;
}

// --- the search ---------------------------------------------------------------------------------------------

interface Label {
  readonly node: number;
  readonly bar: Bar;
  readonly opening: number;
}

const higher = (a: Bar, b: Bar): Bar => (b.level > a.level ? b : a);

/** Head needed before a gate's opening head is that much more. */
const lifted = (bar: Bar, opening: number): Bar => (opening === 0 ? bar : { ...bar, level: bar.level + opening });

/** A heap would be the right thing for twenty thousand parts; the step bound comes first. */
function search(graph: Graph, start: number, steps: { left: number }, reach: (label: Label, node: Node) => void): void {
  const source = graph.nodes[start]?.end;
  if (!source) return;
  const kept = new Map<number, Label[]>();
  const first: Label = {
    node: start,
    bar: { level: source.mouth, part: source.via, why: "the lowest point of its mouth" },
    opening: 0,
  };
  const queue: Label[] = [first];
  while (queue.length > 0 && steps.left > 0) {
    let lowest = 0;
    for (let i = 1; i < queue.length; i++) if (isBefore(queue[i] as Label, queue[lowest] as Label)) lowest = i;
    const [label] = queue.splice(lowest, 1) as [Label];
    steps.left -= 1 + queue.length / 16;
    const there = kept.get(label.node) ?? [];
    if (there.some((other) => other.bar.level <= label.bar.level && other.opening <= label.opening)) continue;
    kept.set(label.node, [...there, label]);
    const node = graph.nodes[label.node] as Node;
    if (label.node !== start) {
      reach(label, node);
      // Water that reaches a body or the air is there: ways do not pass through.
      if (node.end) continue;
    }
    for (const edge of node.edges) {
      const opening = passGates(edge);
      if (opening === null) continue;
      const total = label.opening + opening;
      const next = (graph.nodes[edge.to] as Node).bar;
      queue.push({ node: edge.to, bar: next ? higher(label.bar, lifted(next, total)) : label.bar, opening: total });
    }
  }
}

const isBefore = (a: Label, b: Label): boolean =>
  a.bar.level < b.bar.level || (a.bar.level === b.bar.level && a.opening < b.opening);

/** The opening heads of the gates on an edge; null where one of them does not let the water pass. */
function passGates({ gates, along }: Edge): number | null {
  let opening = 0;
  for (const gate of gates) {
    if (gate.shut || (gate.oneWay && !along)) return null;
    opening += gate.opening;
  }
  return opening;
}

// --- all ways ---------------------------------------------------------------------------------------------------

export function waysOut(section: Section, rules: Rules): Ways {
  const ways: Way[] = [...waysOverEdges(section, rules)];
  const steps = { left: mostSteps };
  const bodies = bodiesOf(section);
  for (const group of groupsOf(section)) {
    const hasPump = group.pumps.length > 0;
    if (rules.outletsOnly && hasPump) continue;
    const full = hasPump || group.pipes.some((pipe) => rules.pulling.has(pipe.id));
    const graph = buildGraph(section, group, full, rules);
    graph.nodes.forEach((node, start) => {
      const from = node.end;
      if (!from || from.to === "ground") return;
      const out = { from: from.to, via: from.via, mouth: full ? from.mouth : null, restart: from.restart };
      search(graph, start, steps, (label, reached) => {
        if (reached.end && reached.end.to !== from.to) {
          ways.push({
            ...out,
            to: reached.end.to,
            bar: higher(label.bar, lifted(reached.end.bar, label.opening)),
            opening: label.opening,
          });
        }
        if (reached.vent && !rules.outletsOnly && ventOpen(reached.vent) > 0) {
          const spill = spillOf(section, bodies, reached.vent);
          if (spill.to !== from.to)
            ways.push({
              ...out,
              to: spill.to,
              bar: higher(label.bar, lifted(spill.bar, label.opening)),
              opening: label.opening,
            });
        }
      });
    });
  }
  return { ways, complete: steps.left > 0 };
}

function* waysOverEdges(section: Section, rules: Rules): Iterable<Way> {
  for (const part of section.parts.values()) {
    if (part.kind === "spillway") {
      const bar = { level: part.crestZ, part: part.id, why: "the spillway's crest" };
      yield { from: part.from, to: part.to, via: part.id, bar, opening: 0, mouth: null, restart: 0 };
    } else if (isBody(part) && !rules.outletsOnly) {
      const bar = { level: part.rimLevel, part: part.id, why: "its rim" };
      yield {
        from: part.id,
        to: part.kind === "vessel" ? overflowOf(part) : "ground",
        via: part.id,
        bar,
        opening: 0,
        mouth: null,
        restart: 0,
      };
    }
  }
}

/** Where a vent's spill goes: the body under it with the highest rim at or below its open end, else the ground. */
function spillOf(section: Section, bodies: readonly Body[], vent: Vent): { to: Destination; bar: Bar } {
  const pipe = section.parts.get(vent.on.pipe);
  const [x, tee] = pipe?.kind === "pipe" ? placeAt(pipeLine(section, pipe), vent.on.at) : [0, 0];
  const level = ventEnd(vent, tee);
  let under: Body | null = null;
  for (const body of bodies) {
    if (x < body.x || x > body.x + drawnWidth(body) || body.rimLevel > level) continue;
    if (!under || body.rimLevel > under.rimLevel) under = body;
  }
  return { to: under?.id ?? "ground", bar: { level, part: vent.id, why: "the vent's open end" } };
}
