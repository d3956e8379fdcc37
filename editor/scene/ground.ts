/** The earth as cut: the ground line with every sunk body dug out of it, a band of hatched earth under it, and
 * an earth plinth under every body that stands higher than the ground. */
import { type Body, bottomOf, drawnWidth, isBody, type Part, type Point, wallsAt } from "../../hydraulics/index.ts";
import { siteAt } from "../sheet/transform.ts";
import { type Drawing, metresOf, paperAt } from "./drawing.ts";
import { hatch } from "./hatch.ts";
import { rulerWidth } from "./layout.ts";
import type { SceneNode } from "./node.ts";
import type { Mm, Obstacles } from "./obstacles.ts";

/** mm of paper */
const bandDepth = 12;
const hatchApart = 2.3;
/** m of the little bank between ground and a rim that stands above it */
const bank = 0.12;

/** The earth is cut for it. */
export const isSunk = ({ site }: Drawing, part: Part | undefined): part is Body =>
  isBody(part) && bottomOf(part) < site.groundLevel - 1e-6;

/** The cut earth, and apart from it the ground line, which goes over the plinths. */
export function drawGround(drawing: Drawing): {
  readonly earth: readonly SceneNode[];
  readonly line: readonly SceneNode[];
} {
  const profile = profileOf(drawing);
  return { earth: drawEarth(drawing, profile), line: groundLines(drawing, profile) };
}

function drawEarth(drawing: Drawing, profile: Profile): readonly SceneNode[] {
  const floor = floorOf(drawing, profile.cuts);
  const [left, right] = edges(drawing);
  const earth = [...clipped(profile.line, left, right), ...clipped(floor, left, right).toReversed()];
  const base = { part: null, space: "site", layer: "back" } as const;
  const mm = earth.map((place) => paperAt(drawing, place));
  return [
    {
      ...base,
      key: "sheet earth",
      shape: "line",
      points: earth,
      closed: true,
      stroke: "none",
      fill: "ground",
      pen: "hair",
    },
    {
      ...base,
      key: "sheet hatch",
      space: "paper",
      shape: "path",
      at: [0, 0],
      data: hatch(mm, hatchApart),
      stroke: "hatch",
      pen: "hair",
      opacity: 0.7,
    },
  ];
}

interface Cut {
  readonly body: Body;
  /** where the bank begins and ends on the ground line */
  readonly from: number;
  readonly to: number;
}

interface Profile {
  readonly line: readonly Point[];
  readonly cuts: readonly Cut[];
}

/** Sunk bodies from left to right; one that overlaps another is drawn, but digs no hole of its own. */
function profileOf(drawing: Drawing): Profile {
  const ground = drawing.site.groundLevel;
  const [left, right] = edges(drawing);
  const sunk = drawing.parts.filter((part): part is Body => isSunk(drawing, part)).sort((a, b) => a.x - b.x);
  const cuts: Cut[] = [];
  let free = Number.NEGATIVE_INFINITY;
  for (const body of sunk) {
    if (body.x < free) continue;
    const slope = body.rimLevel > ground ? Math.min(bank, Math.max(body.rimLevel - ground, 0.02) * 2) : 0;
    const end = body.x + drawnWidth(body);
    cuts.push({ body, from: Math.max(body.x - slope, free), to: end + slope });
    free = end + slope;
  }
  const line: Point[] = [[left, ground]];
  for (const { body, from, to } of cuts) {
    const bottom = bottomOf(body);
    const [low, high] = wallsAt(body, bottom);
    const end = body.x + drawnWidth(body);
    line.push(
      [from, ground],
      [body.x, Math.max(body.rimLevel, Math.min(ground, body.rimLevel))],
      [low, bottom],
      [high, bottom],
      [end, body.rimLevel],
      [to, ground],
    );
  }
  line.push([right, ground]);
  return { line: line.filter(([x]) => Number.isFinite(x)), cuts };
}

/** From the ruler to the right frame line. */
function edges({ layout, transform }: Drawing): readonly [number, number] {
  const { x, width, y } = layout.frame;
  return [siteAt(transform, [x + rulerWidth, y])[0], siteAt(transform, [x + width, y])[0]];
}

/** What of a line that runs from left to right lies between two places; nothing where none of it does. */
function clipped(line: readonly Point[], left: number, right: number): readonly Point[] {
  const at = ([ax, az]: Point, [bx, bz]: Point, x: number): Point => [x, az + ((bz - az) * (x - ax)) / (bx - ax)];
  const kept: Point[] = [];
  line.forEach((place, i) => {
    const before = line[i - 1];
    for (const edge of [left, right])
      if (before && before[0] < edge && edge < place[0]) kept.push(at(before, place, edge));
    if (place[0] >= left && place[0] <= right) kept.push(place);
  });
  return kept;
}

/** The lower edge of the band: parallel to the ground, lower under whatever is dug in. */
function floorOf(drawing: Drawing, cuts: readonly Cut[]): readonly Point[] {
  const ground = drawing.site.groundLevel;
  const depth = metresOf(drawing, bandDepth);
  const [left, right] = edges(drawing);
  const floor: Point[] = [[left, ground - depth]];
  let free = left;
  cuts.forEach(({ body }, i) => {
    const bottom = Math.min(bottomOf(body) - depth, ground - depth);
    const [low, high] = wallsAt(body, bottomOf(body));
    const next = cuts[i + 1]?.body.x ?? Number.POSITIVE_INFINITY;
    const room = (body.x + drawnWidth(body) + next) / 2;
    const begin = Math.max(body.x - depth, free);
    const end = Math.min(body.x + drawnWidth(body) + depth, room);
    floor.push(
      [begin, ground - depth],
      [Math.max(Math.min(low - depth * 0.5, body.x), begin), bottom],
      [Math.min(Math.max(high + depth * 0.5, high), end), bottom],
      [end, ground - depth],
    );
    free = end;
  });
  floor.push([right, ground - depth]);
  return floor;
}

/** The ground line itself is broken where a body is dug in: its walls are the body's. */
function groundLines(drawing: Drawing, profile: Profile): readonly SceneNode[] {
  const base = {
    part: null,
    space: "site",
    layer: "back",
    shape: "line",
    stroke: "ink",
    pen: "outline",
    join: "round",
  } as const;
  const [left, right] = edges(drawing);
  return runsOf(drawing, profile).flatMap((points, i): readonly SceneNode[] => {
    const seen = clipped(points, left, right);
    return seen.length < 2 ? [] : [{ ...base, key: `sheet ground ${i}`, points: seen }];
  });
}

function runsOf(drawing: Drawing, { line, cuts }: Profile): readonly (readonly Point[])[] {
  const first = line[0] as Point;
  const last = line.at(-1) as Point;
  const ground = drawing.site.groundLevel;
  const runs: (readonly Point[])[] = [];
  let start: readonly Point[] = [first];
  for (const { body, from, to } of cuts) {
    runs.push([...start, [from, ground], [body.x, body.rimLevel]]);
    start = [
      [body.x + drawnWidth(body), body.rimLevel],
      [to, ground],
    ];
  }
  return [...runs, [...start, last]];
}

/** Where the ground line runs, mm of paper. */
export const groundRuns = (drawing: Drawing): readonly (readonly Mm[])[] =>
  runsOf(drawing, profileOf(drawing)).map((points) => points.map((place) => paperAt(drawing, place)));

/** A body that stands higher than the ground needs something under it; what, the builder decides. */
export function drawPlinth(drawing: Drawing, body: Body): readonly SceneNode[] {
  const ground = drawing.site.groundLevel;
  const bottom = bottomOf(body);
  if (bottom <= ground + 1e-3) return [];
  const [left, right] = wallsAt(body, bottom);
  const outline: readonly Point[] = [
    [left, bottom],
    [right, bottom],
    [right, ground],
    [left, ground],
  ];
  const base = { part: body.id, space: "site", layer: "back" } as const;
  const mm = outline.map((place) => paperAt(drawing, place));
  return [
    {
      ...base,
      key: `${body.id} plinth`,
      shape: "line",
      points: outline,
      closed: true,
      stroke: "hatch",
      fill: "ground",
      pen: "hair",
    },
    {
      ...base,
      key: `${body.id} plinth hatch`,
      space: "paper",
      shape: "path",
      at: [0, 0],
      data: hatch(mm, hatchApart),
      stroke: "hatch",
      pen: "hair",
      opacity: 0.7,
    },
  ];
}

/** Labels keep off the ground line, not off the hatch. */
export function blockGround(drawing: Drawing, obstacles: Obstacles): void {
  const { line, cuts } = profileOf(drawing);
  for (const points of [line, floorOf(drawing, cuts)]) {
    obstacles.addLine(
      points.map((place) => paperAt(drawing, place)),
      0.3,
    );
  }
  const { frame, field } = drawing.layout;
  obstacles.addRect({ x: frame.x, y: field.y, width: rulerWidth, height: field.height });
}
