/** Dimension lines with true distances (ISO 129): how far each vessel's water stands over its pond's, how high the
 * supply rises, and, as a chain under the section, how wide the bodies are and how far apart they stand. */
import {
  type Body,
  bottomOf,
  drawnWidth,
  isBody,
  type Pipe,
  type Point,
  type Pump,
  pipeLine,
  type Vessel,
} from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatDimension } from "../sheet/units.ts";
import { bodiesBeside, standOf } from "./body.ts";
import { drawDimension, helping, mark, size } from "./dimensionInk.ts";
import { type Drawing, mmOf, paperAt, waterLevel } from "./drawing.ts";
import { groundRuns } from "./ground.ts";
import type { SceneNode } from "./node.ts";
import { type Mm, type Obstacles, overlap } from "./obstacles.ts";
import { textWidth } from "./textWidth.ts";
import { type DimensionPlaces, type Ground, upright } from "./uprightDimension.ts";

const mostBodies = 6;
const mostRises = 3;

export interface Dimensions {
  readonly nodes: readonly SceneNode[];
  readonly places: DimensionPlaces;
}

/** Places them one by one where they are free, and blocks that place for the labels; held ones stay where they were. */
export function drawDimensions(
  drawing: Drawing,
  obstacles: Obstacles,
  held: DimensionPlaces | null = null,
): Dimensions {
  let runs: ReturnType<Ground["line"]> | null = null;
  const line: Ground["line"] = () => {
    runs ??= groundRuns(drawing);
    return runs;
  };
  const ground: Ground = { obstacles, held, places: new Map(), line };
  return {
    nodes: [...chain(drawing, obstacles), ...rises(drawing, ground), ...supplyRises(drawing, ground)],
    places: ground.places,
  };
}

// --- widths, in one chain ----------------------------------------------------------------------------------

function chain(drawing: Drawing, obstacles: Obstacles): readonly SceneNode[] {
  const bodies = drawing.parts.filter(isBody).sort((a, b) => a.x - b.x);
  if (bodies.length === 0 || bodies.length > mostBodies) return [];
  const { field } = drawing.layout;
  const lowest = Math.min(drawing.site.groundLevel, ...bodies.map(bottomOf));
  const edges = [...new Set(bodies.flatMap((body) => [body.x, body.x + drawnWidth(body)]))].sort((a, b) => a - b);
  const ends = edges.map((x) => paperAt(drawing, [x, lowest])[0]);
  const narrowest = Math.min(...ends.slice(1).map((x, i) => x - (ends[i] as number)));
  if (narrowest < 3) return [];
  const texts = edges.slice(1).map((x, i) => formatDimension(x - (edges[i] as number), drawing.system));
  const rows = rowsUnder(ends, texts);
  const most = Math.max(0, ...rows.map((row) => row ?? 0));
  // Figures under the line stand inside the field too, or its edge cuts them.
  const under = rows.some((row) => row !== null) ? underLine + 1.2 : 3.5;
  const y = Math.min(paperAt(drawing, [0, lowest])[1] + 19, field.y + field.height - under - most * underPitch);
  if (y < paperAt(drawing, [0, lowest])[1] + 11.8) return [];
  if ((ends[0] as number) < field.x || (ends.at(-1) as number) > field.x + field.width) return [];
  const nodes: SceneNode[] = [];
  texts.forEach((text, i) => {
    const from: Mm = [ends[i] as number, y];
    const to: Mm = [ends[i + 1] as number, y];
    const row = rows[i] ?? null;
    nodes.push(
      ...drawDimension({ key: `sheet width ${i}`, part: null, from, to, text: row === null ? text : "", helps: [] }),
    );
    if (row !== null)
      nodes.push(...outsideText(`sheet width ${i} text`, [(from[0] + to[0]) / 2, y + row * underPitch], text));
  });
  for (const [i, x] of ends.entries()) nodes.push(helping(`sheet width help ${i}`, null, [x, y - 2.6], [x, y + 1.6]));
  obstacles.addRect({
    x: (ends[0] as number) - 1,
    y: y - 4.4,
    width: (ends.at(-1) as number) - (ends[0] as number) + 2,
    height: 6.7 + most * underPitch,
  });
  return nodes;
}

/** mm between two rows of figures under the line, and from the line to the feet of the first: clear of the strokes */
const underPitch = 3.3;
const underLine = 4.1;
/** mm that the strokes at both ends take of the line, and air beside them */
const strokes = 3.4;

/** The row under the line of each figure that its gap is too small for, so that neighbours do not meet; null where the
 * figure stands on the line. */
function rowsUnder(ends: readonly number[], texts: readonly string[]): readonly (number | null)[] {
  const free: number[] = [];
  return texts.map((text, i) => {
    const [from, to] = [ends[i] as number, ends[i + 1] as number];
    if (textWidth(text, size, 500) + strokes < to - from) return null;
    const half = textWidth(text, size, 400) / 2;
    const middle = (from + to) / 2;
    const row = free.findIndex((edge) => edge < middle - half);
    const taken = row < 0 ? free.length : row;
    free[taken] = middle + half + 1.5;
    return taken;
  });
}

/** Under the line, where the gap is too small for its figure. */
function outsideText(key: string, [x, y]: Mm, text: string): readonly SceneNode[] {
  return [
    {
      ...mark,
      key,
      part: null,
      shape: "text",
      at: [x, y + underLine],
      text,
      anchor: "middle",
      size,
      weight: 400,
      fill: "soft",
    },
  ];
}

// --- levels, one over the other -----------------------------------------------------------------------------

/** From the water that a vessel's pump stands in to the water in the vessel. */
function rises(drawing: Drawing, ground: Ground): readonly SceneNode[] {
  const pond = lowestPond(drawing);
  const low = pond && waterLevel(drawing, pond);
  if (!pond || low === null || low === undefined) return [];
  const vessels = drawing.parts.filter((part): part is Vessel => part.kind === "vessel").slice(0, mostRises);
  return vessels.flatMap((vessel) => {
    const high = waterLevel(drawing, vessel);
    if (high === null || mmOf(drawing, Math.abs(high - low)) < 7) return [];
    const [left, top] = paperAt(drawing, [vessel.x, high]);
    const right = paperAt(drawing, [vessel.x + drawnWidth(vessel), high])[0];
    const bottom = paperAt(drawing, [0, low])[1];
    const waterEdge = paperAt(drawing, [pond.x + drawnWidth(pond), low])[0];
    return upright(drawing, ground, {
      key: `${vessel.id} rise`,
      part: vessel.id,
      top,
      bottom,
      text: formatDimension(high - low, drawing.system),
      tries: [...besides.map((out) => right + out), ...besides.map((out) => left - out)],
      helpTop: null,
      helpBottom: waterEdge,
      isOwn: (x, box) => isNearest(drawing, vessel, pond, x, box),
    });
  });
}

/** mm from a vessel's wall, best first: beyond its level marks */
const besides = [28, 34, 22, 40, 46, 52, 58, 64, 18, 72, 80, 14, 10];

/** Whether a height beside a vessel reads as that vessel's: it stands in no other body, and nearer to the vessel than
 * to any but the pond, which it is measured from. */
function isNearest(drawing: Drawing, vessel: Vessel, pond: Body, x: number, box: Rect): boolean {
  const away = awayFrom(standOf(drawing, vessel), x);
  return bodiesBeside(drawing, vessel).every((body) => {
    const stand = standOf(drawing, body);
    return !overlap(box, stand) && (body === pond || away < awayFrom(stand, x));
  });
}

const awayFrom = ({ x: left, width }: Rect, x: number): number => Math.max(left - x, x - left - width, 0);

function lowestPond({ parts }: Drawing): Body | null {
  const pumped = new Set(parts.flatMap((part) => (part.kind === "pump" && part.in !== undefined ? [part.in] : [])));
  const ponds = parts.filter((part): part is Body => part.kind === "pond");
  return ponds.find((pond) => pumped.has(pond.id)) ?? ponds[0] ?? null;
}

/** From the pump's water to the top of the pipe it feeds. */
function supplyRises(drawing: Drawing, ground: Ground): readonly SceneNode[] {
  const pumps = drawing.parts.filter((part): part is Pump => part.kind === "pump").slice(0, 2);
  return pumps.flatMap((pump) => {
    const body = pump.in === undefined ? undefined : drawing.section.parts.get(pump.in);
    if (body?.kind !== "pond" && body?.kind !== "vessel") return [];
    const low = waterLevel(drawing, body);
    const pipe = drawing.parts.find(
      (part): part is Pipe => part.kind === "pipe" && "part" in part.from && part.from.part === pump.id,
    );
    if (low === null || !pipe) return [];
    const line = pipeLine(drawing.section, pipe);
    const topLevel = Math.max(...line.map(([, z]) => z));
    if (mmOf(drawing, topLevel - low) < 9) return [];
    const x = (line.find(([, z]) => z === topLevel) as Point)[0];
    const [left, top] = paperAt(drawing, [x, topLevel]);
    return upright(drawing, ground, {
      key: `${pump.id} rise`,
      part: pump.id,
      top,
      bottom: paperAt(drawing, [0, low])[1],
      text: formatDimension(topLevel - low, drawing.system),
      tries: [-8, -12, -16, 8, 12].map((out) => left + out),
      helpTop: left,
      helpBottom: null,
      isOwn: (_, box) => !bodiesBeside(drawing, body).some((other) => overlap(box, standOf(drawing, other))),
    });
  });
}
