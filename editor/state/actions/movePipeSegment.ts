import type { Draft } from "immer";
import {
  bottomOf,
  drawnWidth,
  joinedTo,
  type PartId,
  type Pipe,
  type PipeEnd,
  type Point,
  pipeLine,
  type Section,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { bodyOf } from "../inOrder.ts";
import { act } from "./act.ts";
import { mouthOverRim } from "./endAt.ts";
import { shiftedEnd, shiftedPoint } from "./shifted.ts";

type Side = "from" | "to";

/** Shifts the stretch between two points of a pipe's line, `index` counted from its `from` end. Its neighbours grow or
 * shrink. At an end the opening goes along its wall, and an end in the air goes along freely; where the end is held (by a
 * pump, a tee, a joint, the wall's own end) the stretch gets a bend there, and the end stays. */
export function movePipeSegment(section: Section, id: PartId, index: number, dx: number, dz: number): Changed {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Only a pipe has stretches to move." };
  const line = pipeLine(section, pipe);
  const a = line[index];
  const b = line[index + 1];
  if (!a || !b) return { ok: false, why: "There is no such stretch." };
  const last = line.length - 1;
  const along = (side: Side): PipeEnd | null => wentAlong(section, pipe, side, [dx, dz]);
  const ends = { from: index === 0 ? along("from") : null, to: index + 1 === last ? along("to") : null };
  const route = line.flatMap((point, i): Point[] => {
    const isShifted = i === index || i === index + 1;
    if ((i === 0 && ends.from) || (i === last && ends.to)) return [];
    if (isShifted) return [shiftedPoint(point, dx, dz)];
    return i > 0 && i < last ? [point] : [];
  });
  return act(section, `Shift a stretch of ${partName(pipe)}`, (draft) => {
    const target = draft.parts.get(id);
    if (target?.kind !== "pipe" || (dx === 0 && dz === 0)) return;
    for (const side of ["from", "to"] as const) {
      const end = ends[side];
      if (end) target[side] = end as Draft<PipeEnd>;
    }
    if (route.length > 0 || target.route) target.route = route.map(([x, z]) => [x, z]);
  });
}

/** An end that is shifted with its stretch, or null where it is held. */
function wentAlong(section: Section, pipe: Pipe, side: Side, [dx, dz]: Point): PipeEnd | null {
  const end = shiftedEnd(pipe[side], dx, dz);
  if ("open" in end) return joinedTo(section, { pipe: pipe.id, side }).length > 0 ? null : end;
  if ("pipe" in end) return null;
  const body = bodyOf(section, end.part);
  if (!body || end.z === undefined) return null;
  const hangs = end.mouth === "down" || end.mouth === "up";
  if (end.z < bottomOf(body) || end.z > body.rimLevel + (hangs ? mouthOverRim : 0)) return null;
  if (!hangs) return dx === 0 ? end : null;
  return end.x === undefined || end.x < body.x || end.x > body.x + drawnWidth(body) ? null : end;
}

/** The directions in which a stretch may be shifted so that right angles stay: across itself. */
export function segmentDirection(a: Point, b: Point): "sideways" | "upDown" | "any" {
  const across = Math.abs(b[0] - a[0]);
  const up = Math.abs(b[1] - a[1]);
  return across < up / 5 ? "sideways" : up < across / 5 ? "upDown" : "any";
}
