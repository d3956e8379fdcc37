/** A pipe that comes apart: two pipes, each with an open end at the place, and everything that stood on the one
 * standing on the piece that it belongs to.
 *
 *      pump ──────── ● ──────── vessel      pump ──────── ●   ● ──────── vessel      both ends in the air
 *
 * The piece towards the vessel has no pump any more. It was full of water, so where it rises over its mouth it is
 * followed as a full line, which siphons; else by gravity, down to the mouth's lowest point. */
import { lineLength, pipeLine, placeAt } from "../document/geometry.ts";
import { isDevice } from "../document/isKind.ts";
import { samePlace } from "../document/limits.ts";
import {
  type Part,
  type PartId,
  type Pipe,
  type PipeEnd,
  type Point,
  partId,
  type Section,
} from "../document/section.ts";

export interface Parted {
  readonly section: Section;
  /** pieces that are followed as full lines */
  readonly asFull: ReadonlySet<PartId>;
}

/** @param wanted m along the drawn line, off its ends */
export function partedAt(section: Section, pipe: Pipe, wanted: number): Parted {
  const at = besideTees(section, pipe.id, wanted);
  const line = pipeLine(section, pipe);
  const [x, z] = placeAt(line, at);
  const open: PipeEnd = { open: true, x, z };
  const tail = partId(`${pipe.id}.tail`);
  const { before, after } = routesAt(line, at);
  const { fittings: _fittings, extraLength: _extra, ...bare } = pipe;
  const parts = new Map<PartId, Part>();
  for (const part of section.parts.values()) parts.set(part.id, moved(part, { pipe: pipe.id, tail, at }));
  const end = (part: PipeEnd) => movedEnd(part, { pipe: pipe.id, tail, at });
  parts.set(pipe.id, { ...pipe, from: end(pipe.from), to: open, route: before });
  parts.set(tail, { ...bare, id: tail, from: open, to: end(pipe.to), route: after });
  const parted = { ...section, parts };
  const asFull = [pipe.id, tail].filter((id) => risesOverItsMouth(parted, parts.get(id) as Pipe));
  return { section: parted, asFull: new Set(asFull) };
}

/** m past a tee at which a pipe parts that would part right there: a tee at the very end of a piece would close it */
const past = 1e-3;

function besideTees(section: Section, id: PartId, wanted: number): number {
  const isTee = (end: PipeEnd) => "pipe" in end && end.pipe === id && Math.abs(end.at - wanted) < 2 * samePlace;
  for (const part of section.parts.values())
    if (part.kind === "pipe" && (isTee(part.from) || isTee(part.to))) return wanted + past;
  return wanted;
}

/** Or leads to another pipe, so that no end of its own says where it stops. */
function risesOverItsMouth(section: Section, pipe: Pipe): boolean {
  const line = pipeLine(section, pipe);
  const mouths = [pipe.from, pipe.to].flatMap((end, k) =>
    "part" in end ? [(line.at(k === 0 ? 0 : -1) as Point)[1]] : [],
  );
  return mouths.length === 0 || line.some(([, z]) => z > Math.max(...mouths) + 1e-6);
}

interface Cut {
  readonly pipe: PartId;
  readonly tail: PartId;
  readonly at: number;
}

/** A part that is not concerned is given back as it is. */
function moved(part: Part, cut: Cut): Part {
  if (part.kind === "pipe") {
    const [from, to] = [movedEnd(part.from, cut), movedEnd(part.to, cut)];
    return from === part.from && to === part.to ? part : { ...part, from, to };
  }
  if (!isDevice(part)) return part;
  const { on } = part;
  return on.pipe === cut.pipe && on.at > cut.at ? { ...part, on: { pipe: cut.tail, at: on.at - cut.at } } : part;
}

function movedEnd(end: PipeEnd, cut: Cut): PipeEnd {
  return "pipe" in end && end.pipe === cut.pipe && end.at > cut.at ? { pipe: cut.tail, at: end.at - cut.at } : end;
}

function routesAt(line: readonly Point[], at: number): { before: Point[]; after: Point[] } {
  const before: Point[] = [];
  const after: Point[] = [];
  for (let k = 1; k < line.length - 1; k++) {
    const along = lineLength(line.slice(0, k + 1));
    if (along < at - 1e-6) before.push(line[k] as Point);
    else if (along > at + 1e-6) after.push(line[k] as Point);
  }
  return { before, after };
}
