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

export interface PxBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What a part takes of the screen: its body, or a strip along each stretch of a pipe. */
export function boxesOf(section: Section, part: Part, projection: Projection): readonly PxBox[] {
  if (part.kind === "pond" || part.kind === "vessel") {
    const [left, top] = projection.px("site", [part.x, part.rimLevel]);
    const [right, bottom] = projection.px("site", [part.x + drawnWidth(part), bottomOf(part)]);
    return [{ left, top, right, bottom }];
  }
  const points = part.kind === "pipe" ? pipeLine(section, part) : [anchorOf(section, part)];
  const px = points.map((point): Px => projection.px("site", point));
  const room = 14;
  return px.slice(0, Math.max(px.length - 1, 1)).map(([x, y], i) => {
    const [toX, toY] = px[i + 1] ?? [x, y];
    return {
      left: Math.min(x, toX) - room,
      right: Math.max(x, toX) + room,
      top: Math.min(y, toY) - room,
      bottom: Math.max(y, toY) + room,
    };
  });
}
