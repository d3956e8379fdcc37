/** What a pipe's end becomes where it is let go: an opening in a body, a pump's stub, a tee, or an end in air. */
import {
  bottomOf,
  lineLength,
  nearestOnLine,
  type PartId,
  type Pipe,
  type PipeEnd,
  type Point,
  pipeLine,
  type Section,
  wallsAt,
} from "../../../hydraulics/index.ts";
import { bodiesOf, inOrder } from "../inOrder.ts";
import { even, round } from "./rounded.ts";

/** m: over a body an end hangs above its water or stands in it; a hand's breadth over the rim still belongs to it */
export const mouthOverRim = 0.3;

export interface EndWish {
  readonly at: Point;
  /** m on the sheet within which a pump, a wall or a pipe catches the end */
  readonly reach: number;
  /** the pipe whose end it is: never teed into itself */
  readonly pipe?: PartId;
  /** as `to`, a pump in the water can not be reached: it has no inlet for a pipe */
  readonly which: "from" | "to";
}

export function endAt(section: Section, wish: EndWish): PipeEnd {
  return atPump(section, wish) ?? inTee(section, wish) ?? inBody(section, wish) ?? openAt(wish.at);
}

export const openAt = ([x, z]: Point): PipeEnd => ({ open: true, x: even(x), z: even(z) });

function atPump(section: Section, { at, reach, which }: EndWish): PipeEnd | null {
  for (const part of inOrder(section)) {
    if (part.kind !== "pump" || (which === "to" && part.in !== undefined)) continue;
    if (Math.hypot(part.x - at[0], part.z - at[1]) <= reach * 1.4) return { part: part.id };
  }
  return null;
}

function inTee(section: Section, { at, reach, pipe }: EndWish): PipeEnd | null {
  let best: { id: PartId; along: number; off: number } | null = null;
  for (const part of inOrder(section)) {
    if (part.kind !== "pipe" || part.id === pipe || hangsOn(section, part.id, pipe)) continue;
    const line = pipeLine(section, part);
    const near = nearestOnLine(line, at);
    if (near.distance <= reach * 0.7 && (!best || near.distance < best.off))
      best = { id: part.id, along: alongOrEnd(near.at, lineLength(line)), off: near.distance };
  }
  return best ? { pipe: best.id, at: best.along } : null;
}

/** To the millimetre; within the last one the very end, where a pipe carries the other one on. */
const alongOrEnd = (at: number, whole: number): number => (at > whole - 1e-3 ? whole : round(at));

/** The pipe at a place that an end of this pipe can not be teed into, because its own place hangs on it: itself, but for
 * the stretch at that end, and what tees into it. An end that was let go on it would look joined, and be open. */
export function leadingBack(section: Section, { at, reach, pipe, which }: EndWish): Pipe | null {
  for (const part of inOrder(section)) {
    if (part.kind !== "pipe") continue;
    const line = pipeLine(section, part);
    const rest = part.id !== pipe ? line : which === "from" ? line.slice(2) : line.slice(0, -2);
    if (part.id !== pipe && !hangsOn(section, part.id, pipe)) continue;
    if (rest.length > 1 && nearestOnLine(rest, at).distance <= reach * 0.7) return part;
  }
  return null;
}

/** Whether a pipe's own place depends on another's, by tees. */
function hangsOn(section: Section, id: PartId, other: PartId | undefined): boolean {
  if (other === undefined) return false;
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return false;
  return [pipe.from, pipe.to].some((end) => "pipe" in end && (end.pipe === other || hangsOn(section, end.pipe, other)));
}

function inBody(section: Section, { at: [x, z], reach }: EndWish): PipeEnd | null {
  for (const body of bodiesOf(section)) {
    const [left, right] = wallsAt(body, z);
    const high = z <= body.rimLevel && z >= bottomOf(body);
    const atWall = Math.min(Math.abs(x - left), Math.abs(x - right)) <= reach;
    if (high && atWall && !(body.kind === "pond" && z > body.waterLevel + reach))
      return { part: body.id, z: even(z), mouth: "side" };
    if (x > left && x < right && z >= bottomOf(body) && z <= body.rimLevel + mouthOverRim)
      return { part: body.id, x: even(x), z: even(z), mouth: "down" };
  }
  return null;
}
