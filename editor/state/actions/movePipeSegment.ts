import { type PartId, type Point, pipeLine, type Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { even } from "./rounded.ts";

/** Shifts the stretch between two points of a pipe's line, `index` counted from its `from` end. Its
 * neighbours grow or shrink. A stretch at an end gets a bend there first, so that the end can stay. */
export function movePipeSegment(section: Section, id: PartId, index: number, dx: number, dz: number): Changed {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Only a pipe has stretches to move." };
  const line = pipeLine(section, pipe);
  const a = line[index];
  const b = line[index + 1];
  if (!a || !b) return { ok: false, why: "There is no such stretch." };
  const shifted = (p: Point): [number, number] => [even(p[0] + dx), even(p[1] + dz)];
  const route: Point[] = [];
  line.forEach((point, i) => {
    const inside = i > 0 && i < line.length - 1;
    if (i === index || i === index + 1) {
      route.push(shifted(point));
    } else if (inside) route.push(point);
  });
  return act(section, `Shift a stretch of ${partName(pipe)}`, (draft) => {
    const target = draft.parts.get(id);
    if (target?.kind !== "pipe" || (dx === 0 && dz === 0)) return;
    target.route = route.map(([x, z]) => [x, z]);
  });
}

/** The directions in which a stretch may be shifted so that right angles stay: across itself. */
export function segmentDirection(a: Point, b: Point): "sideways" | "upDown" | "any" {
  const across = Math.abs(b[0] - a[0]);
  const up = Math.abs(b[1] - a[1]);
  return across < up / 5 ? "sideways" : up < across / 5 ? "upDown" : "any";
}
