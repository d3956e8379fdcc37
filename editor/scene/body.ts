/** What ponds and vessels share: walls, water between them, the mark on its surface, level marks. */
import {
  type Body,
  bottomOf,
  drawnWidth,
  isBody,
  type Pipe,
  type Point,
  pipeLine,
  wallsAt,
} from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatLevel } from "../sheet/units.ts";
import { type Drawing, mmOf, paperAt, waterLevel } from "./drawing.ts";
import type { LabelRequest, Spot } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import { type Mm, type Obstacles, overlap } from "./obstacles.ts";
import { waterSurface, waterSurfaceLines } from "./symbols.ts";

/** Rim, down, along the bottom, up. */
export function wallLine(body: Body): readonly Point[] {
  const bottom = bottomOf(body);
  const [low, high] = wallsAt(body, bottom);
  const [left, right] = wallsAt(body, body.rimLevel);
  return [
    [left, body.rimLevel],
    [low, bottom],
    [high, bottom],
    [right, body.rimLevel],
  ];
}

export function drawWalls(body: Body): SceneNode {
  return {
    key: `${body.id} walls`,
    part: body.id,
    space: "site",
    layer: "bodies",
    shape: "line",
    points: wallLine(body),
    stroke: "ink",
    pen: "outline",
    join: "miter",
  };
}

/** The water and its surface; nothing where no level is known or the body is empty. */
export function drawWater(drawing: Drawing, body: Body): readonly SceneNode[] {
  const level = waterLevel(drawing, body);
  const bottom = bottomOf(body);
  if (level === null || level <= bottom + 1e-4) return [];
  const [low, high] = wallsAt(body, bottom);
  const [left, right] = wallsAt(body, level);
  const base = { part: body.id, space: "site", layer: "bodies" } as const;
  return [
    {
      ...base,
      key: `${body.id} water`,
      shape: "line",
      points: [
        [left, level],
        [low, bottom],
        [high, bottom],
        [right, level],
      ],
      closed: true,
      stroke: "none",
      fill: "water",
      pen: "hair",
      opacity: 0.5,
    },
    {
      ...base,
      key: `${body.id} surface`,
      shape: "line",
      points: [
        [left, level],
        [right, level],
      ],
      stroke: "waterline",
      pen: "part",
    },
  ];
}

/** Marks and words for a body are small things on large ones: not where the body itself is smaller than they. */
export const isWideEnough = (drawing: Drawing, body: Body, mm: number): boolean => {
  const [left, right] = wallsAt(body, body.rimLevel);
  return mmOf(drawing, right - left) >= mm;
};

/** Where the surface mark stands: the first of a few places that no pipe runs through. */
export function surfaceMarkX(drawing: Drawing, body: Body, level: number): number | null {
  const [left, right] = wallsAt(body, level);
  const half = 2.6 / drawing.transform.mmPerMetre;
  if (right - left < 4 * half) return null;
  const taken = crossingsAt(drawing, level);
  for (const share of [0.62, 0.5, 0.74, 0.38, 0.84, 0.26, 0.16]) {
    const x = left + (right - left) * share;
    if (taken.every(([from, to]) => x + half < from || x - half > to)) return x;
  }
  return null;
}

/** Spans of x in which a pipe passes a level or runs near it. */
function crossingsAt(drawing: Drawing, level: number): readonly (readonly [number, number])[] {
  const near = 3 / drawing.transform.mmPerMetre;
  const spans: (readonly [number, number])[] = [];
  for (const part of drawing.parts) {
    if (part.kind === "pump" && Math.abs(part.z - level) < near * 1.5)
      spans.push([part.x - near * 1.5, part.x + near * 1.5]);
    if (part.kind !== "pipe") continue;
    const line = pipeLine(drawing.section, part as Pipe);
    for (let i = 1; i < line.length; i++) {
      const [ax, az] = line[i - 1] as Point;
      const [bx, bz] = line[i] as Point;
      if (Math.max(az, bz) < level - near || Math.min(az, bz) > level + near) continue;
      spans.push([Math.min(ax, bx) - part.bore, Math.max(ax, bx) + part.bore]);
    }
  }
  return spans;
}

/** The triangle on the water with its lines, where there is room for it. */
export function drawSurfaceMark(drawing: Drawing, body: Body): readonly SceneNode[] {
  const level = waterLevel(drawing, body);
  if (level === null || level <= bottomOf(body) + 1e-4) return [];
  const x = surfaceMarkX(drawing, body, level);
  if (x === null) return [];
  const base = { part: body.id, space: "site", layer: "marks", shape: "path", at: [x, level] } as const;
  return [
    {
      ...base,
      key: `${body.id} surface mark`,
      data: waterSurface,
      stroke: "waterline",
      fill: "sheet",
      pen: "dimension",
    },
    { ...base, key: `${body.id} surface lines`, data: waterSurfaceLines, stroke: "waterline", pen: "hair" },
  ];
}

export function blockBody(drawing: Drawing, body: Body, obstacles: Obstacles): void {
  obstacles.addLine(
    wallLine(body).map((place) => paperAt(drawing, place)),
    0.3,
  );
  const level = waterLevel(drawing, body);
  if (level === null || level <= bottomOf(body)) return;
  const [left, right] = wallsAt(body, level);
  obstacles.addLine([paperAt(drawing, [left, level]), paperAt(drawing, [right, level])], 0.2);
  const x = surfaceMarkX(drawing, body, level);
  if (x === null) return;
  const [mx, my] = paperAt(drawing, [x, level]);
  obstacles.addRect({ x: mx - 2, y: my - 2.8, width: 4, height: 5.5 });
}

/** mm over a rim, and to the sides of a wall, in which a level mark reads as that body's */
const markReach = { over: 5, beside: 1.5 };

/** Where a body stands on the paper, with what it stands on, mm. */
export function standOf(drawing: Drawing, body: Body): Rect {
  const [x, y] = paperAt(drawing, [body.x, body.rimLevel]);
  const foot = Math.min(bottomOf(body), drawing.site.groundLevel);
  const [right, bottom] = paperAt(drawing, [body.x + drawnWidth(body), foot]);
  return { x, y, width: right - x, height: bottom - y };
}

/** The other bodies, but for those that it stands in or that stand in it: there is no place beside these. */
export function bodiesBeside(drawing: Drawing, of: Body): readonly Body[] {
  const own = standOf(drawing, of);
  return drawing.parts.filter(isBody).filter((body) => body.id !== of.id && !overlap(own, standOf(drawing, body)));
}

const marksOf = ({ x, y, width, height }: Rect): Rect => ({
  x: x - markReach.beside,
  y: y - markReach.over,
  width: width + 2 * markReach.beside,
  height: height + markReach.over,
});

/** A level mark beside a wall: to the right, to the left, then moved up or down on a bent leader. */
export function levelBeside(
  drawing: Drawing,
  body: Body,
  mark: {
    readonly key: string;
    readonly level: number;
    readonly word: string;
  },
): LabelRequest {
  const [left, right] = wallsAt(body, body.rimLevel).map((x) => paperAt(drawing, [x, mark.level])) as unknown as [
    Mm,
    Mm,
  ];
  const spots: Spot[] = [];
  for (const dy of [0, -3.2, 3.2, -5.5, 5.5, -8, 8]) {
    for (const out of dy === 0 ? [2.5, 7, 12] : [4.5, 9, 14]) {
      spots.push({ at: [right[0] + out, right[1] + dy], across: 1, down: -1, leadFrom: right });
      spots.push({ at: [left[0] - out, left[1] + dy], across: -1, down: -1, leadFrom: left });
    }
  }
  return {
    key: mark.key,
    part: body.id,
    level: true,
    others: () => bodiesBeside(drawing, body).map((other) => marksOf(standOf(drawing, other))),
    spots,
    variants: [
      [
        {
          size: letters.note,
          apart: 1.3,
          runs: [
            { text: formatLevel(mark.level, drawing.system), weight: 500, fill: "ink" },
            { text: mark.word, weight: 400, fill: "soft" },
          ],
        },
      ],
      [{ size: letters.note, runs: [{ text: formatLevel(mark.level, drawing.system), weight: 500, fill: "ink" }] }],
    ],
  };
}

/** The level written on the water itself, over the line, beside the mark. */
export function levelOnWater(drawing: Drawing, body: Body, level: number, word: string): LabelRequest {
  const [left, right] = wallsAt(body, level);
  const x = surfaceMarkX(drawing, body, level);
  const spots: Spot[] = [];
  const y = paperAt(drawing, [left, level])[1] - 0.1;
  const beside = x === null ? null : paperAt(drawing, [x, level])[0];
  if (beside !== null)
    for (const across of [1, -1] as const) spots.push({ at: [beside + 1.6 * across, y], across, down: -1 });
  for (const share of [0.5, 0.3, 0.7, 0.15, 0.85]) {
    spots.push({ at: [paperAt(drawing, [left + (right - left) * share, level])[0], y], across: 0, down: -1 });
  }
  if (beside !== null)
    for (const across of [1, -1] as const) spots.push({ at: [beside + 1.8 * across, y], across, down: 1 });
  return {
    key: `${body.id} water level`,
    part: body.id,
    spots,
    variants: [
      [
        {
          size: letters.note,
          apart: 1.3,
          runs: [
            { text: formatLevel(level, drawing.system), weight: 500, fill: "ink" },
            { text: word, weight: 400, fill: "soft" },
          ],
        },
      ],
      [{ size: letters.note, runs: [{ text: formatLevel(level, drawing.system), weight: 500, fill: "ink" }] }],
    ],
  };
}

/** Spots inside a rectangle of paper: low first, from the middle outwards. */
export function spotsInside(left: number, right: number, top: number, bottom: number): readonly Spot[] {
  const spots: Spot[] = [];
  for (const share of [0.86, 0.7, 0.55, 0.4, 0.25]) {
    for (const across of [0.5, 0.62, 0.38, 0.75, 0.25]) {
      spots.push({ at: [left + (right - left) * across, top + (bottom - top) * share], across: 0, down: 0 });
    }
  }
  return spots;
}
