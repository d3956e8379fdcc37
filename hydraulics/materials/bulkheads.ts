import { mouthOf } from "../document/defaults.ts";
import { pipeLine, wallsAt } from "../document/geometry.ts";
import type { Body, Pipe, PipeEnd, Point, Section } from "../document/section.ts";
import { samePlace } from "../network/pipeModel.ts";
import type { Counted } from "./counted.ts";
import { sizeOf } from "./sizeWords.ts";

/** A pipe that leaves its body through wall or floor needs a sealed fitting; over the rim it needs none. */
export function throughWalls(section: Section, pipe: Pipe, end: PipeEnd, counted: Counted): void {
  if (!("part" in end)) return;
  const body = section.parts.get(end.part);
  if (body?.kind !== "pond" && body?.kind !== "vessel") return;
  const line = pipeLine(section, pipe);
  if (mouthOf(end) !== "side" && !pierces(body, end === pipe.from ? line : [...line].reverse())) return;
  const through = body.kind === "pond" ? "flange through a pond's wall" : "bulkhead fitting";
  counted.add("bulkhead", `${through}, ${sizeOf(pipe)}`, pipe.id);
}

/** Whether a line that begins inside a body leaves it below the rim. */
function pierces(body: Body, line: readonly Point[]): boolean {
  const floor = body.kind === "pond" ? body.bedLevel : body.baseLevel;
  const isInside = ([x, z]: Point): boolean => {
    const [left, right] = wallsAt(body, z);
    return x > left - samePlace && x < right + samePlace && z > floor - samePlace && z < body.rimLevel;
  };
  for (let k = 1; k < line.length; k++) {
    const a = line[k - 1] as Point;
    const b = line[k] as Point;
    if (isInside(b)) continue;
    // Where it leaves: by halves, between the last place inside and the next point outside.
    let inside = 0;
    let outside = 1;
    const at = (t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    if (!isInside(a)) return false;
    for (let i = 0; i < 60; i++) {
      const middle = (inside + outside) / 2;
      if (isInside(at(middle))) inside = middle;
      else outside = middle;
    }
    return at(inside)[1] < body.rimLevel - 1e-4;
  }
  return false;
}
