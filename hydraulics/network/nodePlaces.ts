/** Where a pipe has nodes: at its ends, tees and vents if it runs full; at tees and vents if it runs by gravity. */
import { placeAt } from "../document/geometry.ts";
import type { JoinedEnd } from "../document/joints.ts";
import type { PartId } from "../document/section.ts";
import { squareLaw } from "../elements/squareLaw.ts";
import { boreArea } from "../formulas/circle.ts";
import { must } from "../must.ts";
import { AirPointLink } from "../solver/links/airPointLink.ts";
import { mostThrough } from "../solver/links/link.ts";
import { type Draft, type NodePlace, teeKey } from "./draft.ts";
import { squareOf } from "./laws.ts";
import type { PipeEndModel } from "./network.ts";
import { distinct, type LaidPipe, samePlace } from "./pipeModel.ts";

/** stands for a node that the pipe of the tee owns */
const borrowed = -3;

export function addNodePlaces(draft: Draft): void {
  for (const pipe of draft.layout.pipes.values()) draft.places.set(pipe.pipe.id, placesOn(draft, pipe));
}

function placesOn(draft: Draft, pipe: LaidPipe): readonly NodePlace[] {
  const {
    drawn,
    pipe: { id },
  } = pipe;
  const tees = draft.layout.tees.get(id) ?? [];
  // On a gravity pipe too: a vent whose open end lies under the water lets it run out. The cut changes nothing
  // else (`gravityPath.ts`).
  const vents = (draft.ventsOn.get(id) ?? []).map((vent) => vent.on.at);
  const inner = distinct([...tees, ...vents].map((at) => Math.min(Math.max(0, at), drawn)));
  if (pipe.runs === "gravity") return inner.map((at) => ownPlace(draft, pipe, at));
  return [
    endPlace(draft, pipe, 0, pipe.from),
    ...inner.filter((at) => isInner(pipe, at)).map((at) => innerPlace(draft, pipe, at)),
    endPlace(draft, pipe, drawn, pipe.to),
  ];
}

const isInner = ({ drawn }: LaidPipe, at: number): boolean => at > samePlace && at < drawn - samePlace;

function ownPlace(draft: Draft, pipe: LaidPipe, at: number): NodePlace {
  const node = draft.addNode({ part: pipe.pipe.id, head: placeAt(pipe.line, at)[1], store: null });
  return { at, node, beyond: node, joins: node };
}

function endPlace(draft: Draft, pipe: LaidPipe, at: number, end: PipeEndModel): NodePlace {
  if (end.kind === "tee") return { at, node: borrowed, beyond: borrowed, joins: borrowed };
  if (end.kind === "joint") return jointPlace(draft, pipe, at, end.joins);
  if (end.kind !== "pump") return ownPlace(draft, pipe, at);
  const pump = draft.pumps.get(end.pump);
  must(pump, `${end.pump} is no pump`);
  const node = at === 0 ? pump.outlet : pump.inlet;
  return { at, node, beyond: node, joins: node };
}

/** What carries the pipe on joins past the cut that a credited vent at the joint makes,
 * on whichever of them it stands. */
function jointPlace(draft: Draft, pipe: LaidPipe, at: number, joins: readonly JoinedEnd[]): NodePlace {
  const place = ownPlace(draft, pipe, at);
  const ends = joins.flatMap(({ pipe: id, side }) => {
    const joined = draft.layout.pipes.get(id);
    return joined ? [{ pipe: joined, at: side === "from" ? 0 : joined.drawn }] : [];
  });
  const vented = [{ pipe, at }, ...ends].find((each) => ventAt(draft, each.pipe, each.at));
  if (!vented) return place;
  const { node: beyond } = ownPlace(draft, pipe, at);
  const [i, j] = at === 0 ? [beyond, place.node] : [place.node, beyond];
  const link = airPointAt(draft, ventAt(draft, vented.pipe, vented.at) as PartId, pipe, at, [i, j]);
  draft.airPoints.set(teeKey(vented.pipe.pipe.id, vented.at), link);
  return { ...place, joins: beyond };
}

function airPointAt(draft: Draft, cut: PartId, pipe: LaidPipe, at: number, [i, j]: readonly [number, number]) {
  const velocityHead = squareLaw(squareOf(1, pipe.pipe.bore));
  const link = draft.add(new AirPointLink(cut, i, j, placeAt(pipe.line, at)[1], velocityHead));
  link.most = mostThrough(boreArea(pipe.pipe.bore));
  return link;
}

function innerPlace(draft: Draft, pipe: LaidPipe, at: number): NodePlace {
  const place = ownPlace(draft, pipe, at);
  const cut = cutAt(draft, pipe, at);
  if (cut === null) return place;
  const { node: beyond } = ownPlace(draft, pipe, at);
  const link = airPointAt(draft, cut, pipe, at, [place.node, beyond]);
  draft.airPoints.set(teeKey(pipe.pipe.id, at), link);
  if (cut !== pipe.pipe.id) return { ...place, beyond };
  const joins = draft.options.branchAir?.get(teeKey(pipe.pipe.id, at)) ?? "from";
  draft.branchAir.push({ link, pipe: pipe.pipe.id, at, joins });
  if (joins === "beyond") return { ...place, joins: beyond };
  return { ...place, beyond, joins: joins === "from" ? place.node : beyond };
}

/** The vent or branch that admits air at a place; null where none is credited. */
function cutAt(draft: Draft, pipe: LaidPipe, at: number): PartId | null {
  const branch = draft.options.branchAir?.has(teeKey(pipe.pipe.id, at)) ? pipe.pipe.id : null;
  return ventAt(draft, pipe, at) ?? branch;
}

const ventAt = ({ options, ventsOn }: Draft, pipe: LaidPipe, at: number): PartId | undefined =>
  (ventsOn.get(pipe.pipe.id) ?? []).find(
    (candidate) =>
      options.airPoints?.has(candidate.id) && Math.abs(Math.min(candidate.on.at, pipe.drawn) - at) < samePlace,
  )?.id;

/** The node at a place of a pipe that has one there. Tees of tees are followed to the pipe that owns the node. */
export function nodeOn(draft: Draft, id: PartId, at: number): number {
  let pipe = id;
  let place = at;
  for (let hops = 0; hops <= draft.layout.pipes.size; hops++) {
    const found = nearest(draft.places.get(pipe) ?? [], place);
    if (found.joins !== borrowed) return found.joins;
    const laid = draft.layout.pipes.get(pipe) as LaidPipe;
    const end = found.at === 0 ? laid.from : laid.to;
    must(end.kind === "tee", "only a tee borrows its node");
    if (!draft.layout.pipes.has(end.pipe)) return draft.addNode({ part: pipe, head: end.place[1], store: null });
    pipe = end.pipe;
    place = end.at;
  }
  throw new Error("tees lead back to their own pipe");
}

/** The nodes of a stretch: on the `to` side of the place it begins at, on the `from` side of the one it ends at. */
export const beginsAt = (draft: Draft, pipe: PartId, { at, beyond }: NodePlace): number =>
  beyond === borrowed ? nodeOn(draft, pipe, at) : beyond;

export const endsAt = (draft: Draft, pipe: PartId, { at, node }: NodePlace): number =>
  node === borrowed ? nodeOn(draft, pipe, at) : node;

const nearest = (places: readonly NodePlace[], at: number): NodePlace =>
  places.find((place) => Math.abs(place.at - at) < 2 * samePlace) ??
  places.reduce((a, b) => (Math.abs(a.at - at) < Math.abs(b.at - at) ? a : b));
