/** A pipe that runs by gravity: a stretch from body to body, cut at tees and vents only. The cut at a vent is there for
 * what it may spill, and for nothing else: the two stretches together need the level that the whole one would. */
import type { Point } from "../document/section.ts";
import { GravityLink } from "../solver/links/gravityLink.ts";
import { outside } from "../solver/links/link.ts";
import { bottomIn } from "./bodies.ts";
import { type Draft, type NodePlace, nodeAt } from "./draft.ts";
import { gravityLaw } from "./gravityPath.ts";
import { frictionOf } from "./laws.ts";
import type { PipeModel, StretchModel } from "./network.ts";
import { nodeOn } from "./nodePlaces.ts";
import { carriedOnAlone } from "./onward.ts";
import { type LaidPipe, samePlace } from "./pipeModel.ts";

interface Stop {
  readonly at: number;
  readonly node: number;
  /** the pipe's own end, a joint too, not a tee or vent on it */
  readonly own: boolean;
}

export function gravityPipe(draft: Draft, pipe: LaidPipe): PipeModel {
  const places = draft.places.get(pipe.pipe.id) as readonly NodePlace[];
  const stops: readonly Stop[] = [
    { at: 0, node: endNode(draft, pipe, "from"), own: true },
    ...places.filter(({ at }) => !isJoint(pipe, at)).map(({ at, node }) => ({ at, node, own: false })),
    { at: pipe.drawn, node: endNode(draft, pipe, "to"), own: true },
  ];
  const tees = draft.layout.tees.get(pipe.pipe.id) ?? [];
  const hasTee = (at: number) => tees.some((tee) => Math.abs(Math.min(tee, pipe.drawn) - at) < 2 * samePlace);
  const perMetre = frictionOf(draft, pipe.pipe, 1);
  const circumstances = {
    checksOpen: draft.options.checkValves === "open",
    kTimes: draft.scatter.k,
    bottomOf: bottomIn(draft),
  };
  const stretches = stops.slice(1).map((b, k): StretchModel => {
    const a = stops[k] as Stop;
    const reach = {
      start: a.at,
      end: b.at,
      startIsEnd: a.own,
      endIsEnd: b.own,
      startIsTee: !a.own && hasTee(a.at),
      endIsTee: !b.own && hasTee(b.at),
      startGoesOn: a.own && goesStraightOn(draft, pipe, "from"),
      endGoesOn: b.own && goesStraightOn(draft, pipe, "to"),
    };
    const law = (way: 1 | -1) => gravityLaw(pipe, reach, way, perMetre, circumstances);
    const forward = a.node === outside ? null : law(1);
    const backward = b.node === outside ? null : law(-1);
    const link = draft.add(new GravityLink(pipe.pipe.id, a.node, b.node, forward, backward));
    return { start: a.at, end: b.at, i: a.node, j: b.node, link };
  });
  return { ...pipe, stretches, mouthFrom: null, mouthTo: null };
}

/** Whether a place is an end that others carry on: one node, and no reach of no length to it. */
const isJoint = ({ from, to, drawn }: LaidPipe, at: number): boolean =>
  (from.kind === "joint" && at < samePlace) || (to.kind === "joint" && at > drawn - samePlace);

/** Whether one other pipe, of the same bore, carries the line straight on at an end: a line drawn in two is one route. */
function goesStraightOn({ layout: { pipes } }: Draft, pipe: LaidPipe, side: "from" | "to"): boolean {
  const next = carriedOnAlone({ pipes }, { pipe, side });
  if (!next || next.pipe.pipe.bore !== pipe.pipe.bore) return false;
  const [a, b] = [lastLeg(pipe, side), lastLeg(next.pipe, next.side)];
  const lengths = Math.hypot(...a) * Math.hypot(...b);
  return a[0] * b[0] + a[1] * b[1] < 0 && Math.abs(a[0] * b[1] - a[1] * b[0]) <= straight * lengths;
}

/** rad */
const straight = 1e-3;

/** Outwards to an end. */
function lastLeg({ line }: LaidPipe, side: "from" | "to"): Point {
  const [inner, end] = (side === "from" ? [line[1], line[0]] : [line.at(-2), line.at(-1)]) as [Point, Point];
  return [end[0] - inner[0], end[1] - inner[1]];
}

function endNode(draft: Draft, pipe: LaidPipe, side: "from" | "to"): number {
  const end = pipe[side];
  if (end.kind === "joint") return nodeOn(draft, pipe.pipe.id, side === "from" ? 0 : pipe.drawn);
  if (end.kind === "body") return nodeAt(draft, end.opening.body, end.opening.level);
  return end.kind === "tee" && draft.layout.pipes.has(end.pipe) ? nodeOn(draft, end.pipe, end.at) : outside;
}
