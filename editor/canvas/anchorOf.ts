import {
  bottomOf,
  drawnWidth,
  lineLength,
  type Part,
  type Point,
  pipeLine,
  placeAt,
  type Section,
} from "../../hydraulics/index.ts";
import { deviceAt } from "./grip.ts";
import type { Projection, Px } from "./projection.ts";

/** The place of a part that a leader points to. */
export function anchorOf(section: Section, part: Part): Point {
  switch (part.kind) {
    case "pond":
      return [part.x + part.width * 0.7, (part.waterLevel + part.bedLevel) / 2];
    case "vessel":
      return [part.x + drawnWidth(part) / 2, (part.rimLevel + part.baseLevel) / 2];
    case "pump":
    case "note":
      return [part.x, part.z];
    case "pipe": {
      const line = pipeLine(section, part);
      return placeAt(line, lineLength(line) * 0.45);
    }
    case "valve":
    case "checkValve":
    case "vent":
      return deviceAt(section, part.on);
    case "spillway": {
      const body = section.parts.get(part.from);
      return body?.kind === "pond" || body?.kind === "vessel" ? [body.x, part.crestZ] : [0, part.crestZ];
    }
  }
}

/** The part's box on the screen, for what has to lie beside it. */
export function boxOf(section: Section, part: Part, projection: Projection) {
  const points: readonly Point[] =
    part.kind === "pond" || part.kind === "vessel"
      ? [
          [part.x, part.rimLevel],
          [part.x + drawnWidth(part), bottomOf(part)],
        ]
      : // A slip beside the whole length of a pipe would lie far off: its place is by the leader's point.
        [anchorOf(section, part)];
  const px = points.map((point): Px => projection.px("site", point));
  const xs = px.map(([x]) => x);
  const ys = px.map(([, y]) => y);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}
