/** What of a part a pointer has hold of. Found from the section's geometry, within a reach in metres that the
 * caller takes from a few pixels. Small things win over large ones: an end before a bend, a bend before an
 * edge, an edge before the part as a whole. */
import {
  type Body,
  bottomOf,
  drawnWidth,
  lineLength,
  nearestOnLine,
  type OnPipe,
  type PartId,
  type Pipe,
  type Point,
  pipeLine,
  placeAt,
  type Section,
  wallsAt,
} from "../../hydraulics/index.ts";
import type { Edge } from "../state/actions/resizeBody.ts";

export type Grip =
  | { readonly of: "part"; readonly part: PartId }
  | { readonly of: "end"; readonly part: PartId; readonly which: "from" | "to" }
  | { readonly of: "bend"; readonly part: PartId; readonly index: number }
  | { readonly of: "stretch"; readonly part: PartId; readonly index: number }
  | { readonly of: "edge"; readonly part: PartId; readonly edge: Edge }
  | { readonly of: "media"; readonly part: PartId; readonly layer: number }
  | { readonly of: "device"; readonly part: PartId }
  | { readonly of: "riser"; readonly part: PartId };

/** A handle that is drawn on a chosen part. */
export interface Handle {
  readonly grip: Grip;
  readonly at: Point;
  /** an edge is a bar across, everything else a dot */
  readonly look: "dot" | "ring" | "sideways" | "upDown";
}

/** px² of a body for each of its handles, with air: on less they would hide it. */
const handleTakes = 300;

/** The handles of one chosen part, smallest thing first; none of a body that is too small on the screen for them. What is
 * not drawn does not catch: the body itself can be met there.
 * @param pixel metres */
export function handlesOf(section: Section, id: PartId, pixel: number): readonly Handle[] {
  const part = section.parts.get(id);
  if (!part) return [];
  switch (part.kind) {
    case "pipe":
      return pipeHandles(section, part);
    case "pond":
    case "vessel": {
      const handles = bodyHandles(part);
      const shown = (drawnWidth(part) * (part.rimLevel - bottomOf(part))) / pixel ** 2;
      return shown < handleTakes * handles.length ? [] : handles;
    }
    case "vent": {
      const tee = deviceAt(section, part.on);
      return [
        { grip: { of: "riser", part: id }, at: [tee[0], part.openEndZ ?? tee[1]], look: "ring" },
        { grip: { of: "device", part: id }, at: tee, look: "dot" },
      ];
    }
    case "valve":
    case "checkValve":
      return [{ grip: { of: "device", part: id }, at: deviceAt(section, part.on), look: "dot" }];
    case "pump":
    case "note":
    case "spillway":
      return [];
  }
}

export function deviceAt(section: Section, on: OnPipe): Point {
  const line = lineOf(section, on.pipe);
  return line ? placeAt(line, on.at) : [0, 0];
}

/** The drawn line of a pipe; null of anything else. */
export function lineOf(section: Section, id: PartId): readonly Point[] | null {
  const pipe = section.parts.get(id);
  return pipe?.kind === "pipe" ? pipeLine(section, pipe) : null;
}

function pipeHandles(section: Section, pipe: Pipe): readonly Handle[] {
  const line = pipeLine(section, pipe);
  return [
    { grip: { of: "end", part: pipe.id, which: "from" }, at: line[0] as Point, look: "ring" },
    { grip: { of: "end", part: pipe.id, which: "to" }, at: line.at(-1) as Point, look: "ring" },
    ...line.slice(1, -1).map((at, index): Handle => ({ grip: { of: "bend", part: pipe.id, index }, at, look: "dot" })),
  ];
}

function bodyHandles(body: Body): readonly Handle[] {
  const width = drawnWidth(body);
  const bottom = bottomOf(body);
  const middle = body.x + width / 2;
  const half = (body.rimLevel + bottom) / 2;
  const [left, right] = wallsAt(body, half);
  const handles: Handle[] = [
    { grip: { of: "edge", part: body.id, edge: "left" }, at: [left, half], look: "sideways" },
    { grip: { of: "edge", part: body.id, edge: "right" }, at: [right, half], look: "sideways" },
    { grip: { of: "edge", part: body.id, edge: "rim" }, at: [middle, body.rimLevel], look: "upDown" },
    { grip: { of: "edge", part: body.id, edge: "bottom" }, at: [middle, bottom], look: "upDown" },
  ];
  if (body.kind === "pond")
    handles.push({
      grip: { of: "edge", part: body.id, edge: "water" },
      at: [body.x + width * 0.25, body.waterLevel],
      look: "upDown",
    });
  else {
    let top = body.baseLevel;
    body.media?.forEach((layer, index) => {
      top += layer.depth;
      handles.push({
        grip: { of: "media", part: body.id, layer: index },
        at: [body.x + width * 0.25, top],
        look: "upDown",
      });
    });
  }
  return handles;
}

export function handleAt(
  section: Section,
  selection: ReadonlySet<PartId>,
  [x, z]: Point,
  reach: number,
  pixel: number,
): Handle | null {
  if (selection.size !== 1) return null;
  let best: { handle: Handle; off: number } | null = null;
  for (const id of selection) {
    for (const handle of handlesOf(section, id, pixel)) {
      const off = Math.hypot(handle.at[0] - x, handle.at[1] - z);
      if (off <= reach && (!best || off < best.off - 1e-9)) best = { handle, off };
    }
  }
  return best?.handle ?? null;
}

/** What a press on a part takes hold of when no handle is there: a pipe's stretch, a device on its pipe. */
export function gripOn(section: Section, id: PartId, at: Point): Grip {
  const part = section.parts.get(id);
  if (part?.kind === "pipe") return { of: "stretch", part: id, index: stretchAt(pipeLine(section, part), at) };
  if (part?.kind === "valve" || part?.kind === "checkValve") return { of: "device", part: id };
  if (part?.kind === "vent") {
    const tee = deviceAt(section, part.on);
    const end = part.openEndZ ?? tee[1];
    // The upper half of a riser pulls its open end, the lower half slides it along the pipe.
    return { of: end > tee[1] && at[1] > (tee[1] + end) / 2 ? "riser" : "device", part: id };
  }
  return { of: "part", part: id };
}

export function stretchAt(line: readonly Point[], at: Point): number {
  const along = nearestOnLine(line, at).at;
  let index = 0;
  while (index < line.length - 2 && lineLength(line.slice(0, index + 2)) < along) index += 1;
  return index;
}

/** The pipe nearest to a place and how far along it that is, within reach. */
export function pipeAt(
  section: Section,
  at: Point,
  reach: number,
): { readonly pipe: PartId; readonly at: number } | null {
  let best: { pipe: PartId; at: number; off: number } | null = null;
  for (const part of section.parts.values()) {
    if (part.kind !== "pipe") continue;
    const near = nearestOnLine(pipeLine(section, part), at);
    if (near.distance <= reach && (!best || near.distance < best.off))
      best = { pipe: part.id, at: near.at, off: near.distance };
  }
  return best;
}
