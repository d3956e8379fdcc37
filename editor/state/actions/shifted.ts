/** Parts, ends and bends that are shifted: moved on the sheet, or set down as copies. */
import type { Part, PipeEnd, Point } from "../../../hydraulics/index.ts";
import { openAt } from "./endAt.ts";
import { even } from "./rounded.ts";

export const shiftedPoint = ([x, z]: Point, dx: number, dz: number): [number, number] => [even(x + dx), even(z + dz)];

/** A tee goes with the pipe that it is in. */
export function shiftedEnd(end: PipeEnd, dx: number, dz: number): PipeEnd {
  if ("open" in end) return openAt([end.x + dx, end.z + dz]);
  if ("pipe" in end) return end;
  return {
    ...end,
    ...(end.x === undefined ? {} : { x: even(end.x + dx) }),
    ...(end.z === undefined ? {} : { z: even(end.z + dz) }),
  };
}

/** Where a part stands then, field by field. A pipe's ends and bends are shifted one by one; what sits on it goes along. */
export function placesShifted(part: Part, dx: number, dz: number): Readonly<Record<string, number>> {
  switch (part.kind) {
    case "pond":
      return {
        x: even(part.x + dx),
        bedLevel: even(part.bedLevel + dz),
        rimLevel: even(part.rimLevel + dz),
        waterLevel: even(part.waterLevel + dz),
      };
    case "vessel":
      return { x: even(part.x + dx), baseLevel: even(part.baseLevel + dz), rimLevel: even(part.rimLevel + dz) };
    case "pump":
    case "note":
      return { x: even(part.x + dx), z: even(part.z + dz) };
    case "spillway":
      return { crestZ: even(part.crestZ + dz) };
    case "vent":
      return part.openEndZ === undefined ? {} : { openEndZ: even(part.openEndZ + dz) };
    case "pipe":
    case "valve":
    case "checkValve":
      return {};
  }
}
