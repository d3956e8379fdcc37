/** A pipe that runs full: a stretch between each two nodes, and a mouth where it opens into a body or the air. */
import { openingHeadOf } from "../document/defaults.ts";
import { squareLaw } from "../elements/squareLaw.ts";
import { boreArea } from "../formulas/circle.ts";
import { entranceK, exitK } from "../formulas/fittingK.ts";
import { FullLink } from "../solver/links/fullLink.ts";
import { mostThrough, outside } from "../solver/links/link.ts";
import { MouthLink } from "../solver/links/mouthLink.ts";
import { bearsOn } from "./bearsOn.ts";
import { bottomIn } from "./bodies.ts";
import { type Draft, type NodePlace, nodeAt } from "./draft.ts";
import { frictionOf, seamless, squareOf } from "./laws.ts";
import type { PipeEndModel, PipeModel, StretchModel } from "./network.ts";
import { beginsAt, endsAt } from "./nodePlaces.ts";
import { type LaidPipe, samePlace } from "./pipeModel.ts";

export function fullPipe(draft: Draft, pipe: LaidPipe): PipeModel {
  const places = draft.places.get(pipe.pipe.id) as readonly NodePlace[];
  const stretches = places.slice(1).map((end, k) => stretchOf(draft, pipe, places[k] as NodePlace, end, k === 0));
  return {
    ...pipe,
    stretches,
    mouthFrom: mouthOf(draft, pipe, pipe.from, (stretches[0] as StretchModel).i),
    mouthTo: mouthOf(draft, pipe, pipe.to, (stretches.at(-1) as StretchModel).j),
  };
}

function stretchOf(draft: Draft, pipe: LaidPipe, a: NodePlace, b: NodePlace, first: boolean): StretchModel {
  const { bore, id } = pipe.pipe;
  const inside = (at: number) => (at > a.at + samePlace || (first && at >= a.at)) && at <= b.at + samePlace;
  let kForward = 0;
  let kBackward = 0;
  for (const item of bearsOn(pipe, { start: a.at, end: b.at, startIsEnd: first })) {
    kForward += item.kForward * draft.scatter.k;
    kBackward += item.kBackward * draft.scatter.k;
  }
  const checks = draft.options.checkValves === "open" ? [] : pipe.checks.filter(({ at }) => inside(at));
  const length = b.at - a.at + (first ? pipe.extra : 0);
  const link = draft.add(
    new FullLink(id, beginsAt(draft, id, a), endsAt(draft, id, b), {
      friction: length > 0 ? frictionOf(draft, pipe.pipe, length) : seamless,
      forward: squareLaw(Math.max(squareOf(kForward, bore), 1e-3)),
      backward: squareLaw(Math.max(squareOf(kBackward, bore), 1e-3)),
      shut: pipe.shutAt.some(inside),
      oneWay: checks.length > 0 ? 1 : 0,
      openingHead: checks.reduce((sum, { valve }) => sum + openingHeadOf(valve), 0),
      area: boreArea(bore),
    }),
  );
  return { start: a.at, end: b.at, i: link.i, j: link.j, link };
}

function mouthOf(draft: Draft, pipe: LaidPipe, end: PipeEndModel, node: number): MouthLink | null {
  if (end.kind !== "air" && end.kind !== "body") return null;
  const { bore, id } = pipe.pipe;
  const giving = squareLaw(squareOf(exitK, bore));
  const link = draft.add(
    end.kind === "air"
      ? new MouthLink(id, outside, node, { axis: end.place[1], edge: Number.POSITIVE_INFINITY, taking: giving, giving })
      : bodyMouth(draft, pipe, end.opening, node),
  );
  if (end.kind === "air") link.broken = true;
  link.most = mostThrough(boreArea(bore));
  return link;
}

function bodyMouth(
  draft: Draft,
  { pipe: { id, bore } }: LaidPipe,
  opening: Extract<PipeEndModel, { kind: "body" }>["opening"],
  node: number,
): MouthLink {
  return new MouthLink(id, nodeAt(draft, opening.body, opening.level), node, {
    axis: opening.level,
    // A mouth drawn under the bed takes nothing that is not there.
    edge: Math.max(opening.edge, bottomIn(draft)(opening.body)),
    taking: squareLaw(squareOf(entranceK(opening.mouth) * draft.scatter.k, bore)),
    giving: squareLaw(squareOf(exitK, bore)),
  });
}
