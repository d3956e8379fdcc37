/** Where things stand on the section: pipes as polylines, ends included, and places along them.
 *
 * A side mouth lies on its body's wall, on the half where the next point of the route is; a projecting end
 * (`down`, `up`) stands at its `x`, or else under the next point. Lines are kept per section object, which
 * never changes, so that a pipe with many tees is laid out once. */
import { must } from "../must.ts";
import { sideSlope } from "./defaults.ts";
import type { Body, PartId, Pipe, PipeEnd, Point, Section } from "./section.ts";

const laidOut = new WeakMap<Section, Map<PartId, readonly Point[]>>();

/** The pipe's drawn line from its `from` end to its `to` end. Needs a section that passed `readSection`
 * (a tee never leads back to its own pipe). */
export function pipeLine(section: Section, pipe: Pipe): readonly Point[] {
  let lines = laidOut.get(section);
  if (!lines) {
    lines = new Map();
    laidOut.set(section, lines);
  }
  const known = lines.get(pipe.id);
  if (known) return known;
  // The pipes that its ends sit on come first. They wait in a list, not on the call stack: a drawing may hang ten
  // thousand tees on one another.
  const waiting = [pipe];
  for (let top = waiting.at(-1); top; top = waiting.at(-1)) {
    const under = unlaid(section, top, lines);
    must(waiting.length <= section.parts.size, "tees lead back to their own pipe");
    if (under) waiting.push(under);
    else {
      const route = top.route ?? [];
      const from = endPlace(section, top.from, route[0], top.to, 0);
      const to = endPlace(section, top.to, route.at(-1), top.from, 0);
      lines.set(top.id, [from, ...route, to]);
      waiting.pop();
    }
  }
  return lines.get(pipe.id) as readonly Point[];
}

/** A pipe that an end sits on and whose line is not known yet. */
function unlaid(section: Section, { from, to }: Pipe, lines: ReadonlyMap<PartId, unknown>): Pipe | null {
  for (const end of [from, to]) {
    const on = "pipe" in end ? section.parts.get(end.pipe) : undefined;
    if (on?.kind === "pipe" && !lines.has(on.id)) return on;
  }
  return null;
}

/** The place of a pipe's end. `next` is the nearest route point, if there is one; `other` the far end. */
function endPlace(section: Section, end: PipeEnd, next: Point | undefined, other: PipeEnd, depth: number): Point {
  must(depth < 1000, "tees lead back to their own pipe");
  if ("open" in end) return [end.x, end.z];
  if ("pipe" in end) {
    const on = section.parts.get(end.pipe);
    must(on?.kind === "pipe", `a tee into ${end.pipe}, which is no pipe`);
    return placeAt(pipeLine(section, on), end.at);
  }
  const part = section.parts.get(end.part);
  must(part, `an end at ${end.part}, which does not exist`);
  if (part.kind === "pump") return [part.x, part.z];
  must(part.kind === "pond" || part.kind === "vessel", `an end at ${end.part}, which holds no water`);
  const z = end.z ?? bottomOf(part);
  const towards = next?.[0] ?? referenceX(section, other, depth + 1);
  if (end.mouth === "down" || end.mouth === "up") return [end.x ?? towards, z];
  const [left, right] = wallsAt(part, z);
  return [towards < (left + right) / 2 ? left : right, z];
}

/** An x for an end that has no route point to look at: good enough to choose a wall. */
function referenceX(section: Section, end: PipeEnd, depth: number): number {
  if ("open" in end) return end.x;
  if ("pipe" in end) return endPlace(section, end, undefined, end, depth + 1)[0];
  if (end.x !== undefined) return end.x;
  const part = section.parts.get(end.part);
  must(part, `an end at ${end.part}, which does not exist`);
  if (part.kind === "pump") return part.x;
  must(part.kind === "pond" || part.kind === "vessel", `an end at ${end.part}, which holds no water`);
  return part.x + drawnWidth(part) / 2;
}

export function lineLength(points: readonly Point[]): number {
  let total = 0;
  for (let i = 1; i < points.length; i++) total += distance(points[i - 1] as Point, points[i] as Point);
  return total;
}

const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** The place `at` metres along a line; clamped to its ends. */
export function placeAt(points: readonly Point[], at: number): Point {
  let rest = at;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1] as Point;
    const b = points[i] as Point;
    const length = distance(a, b);
    if (rest <= length && length > 0) {
      const t = Math.max(0, rest) / length;
      return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    }
    rest -= length;
  }
  return points.at(-1) as Point;
}

/** How far along a line the nearest place to a point is, and how far off it lies. */
export function nearestOnLine(points: readonly Point[], p: Point): { at: number; distance: number } {
  let best = { at: 0, distance: Number.POSITIVE_INFINITY };
  let start = 0;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1] as Point;
    const b = points[i] as Point;
    const length = distance(a, b);
    if (length === 0) continue;
    const t = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length ** 2;
    const along = Math.min(1, Math.max(0, t));
    const off = distance(p, [a[0] + (b[0] - a[0]) * along, a[1] + (b[1] - a[1]) * along]);
    if (off < best.distance) best = { at: start + along * length, distance: off };
    start += length;
  }
  return best;
}

export const bottomOf = (body: Body): number => (body.kind === "pond" ? body.bedLevel : body.baseLevel);

/** Width as drawn, at the rim. */
export function drawnWidth(body: Body): number {
  if (body.kind === "pond") return body.width;
  return body.plan.shape === "round" ? body.plan.diameter : body.plan.width;
}

/** x of the left and right wall at a level; above the rim the rim's. */
export function wallsAt(body: Body, z: number): readonly [left: number, right: number] {
  const width = drawnWidth(body);
  const inset = body.kind === "pond" ? Math.min(width / 2, sideSlope(body) * Math.max(0, body.rimLevel - z)) : 0;
  return [body.x + inset, body.x + width - inset];
}
