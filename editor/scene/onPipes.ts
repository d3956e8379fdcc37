/** Labels that keep to their moving parts may come to lie on a pipe, and pipes that move may come to lie under labels.
 * Such a label is left out until they part. At rest none does: the search for places keeps off pipes. */
import { type PartId, pipeLine } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { type Drawing, paperAt } from "./drawing.ts";
import { grown } from "./labelBox.ts";
import type { PlacedLabel } from "./labels.ts";
import { type Mm, overlap, runsThrough } from "./obstacles.ts";
import { halfWidth } from "./pipe.ts";

interface PipeInk {
  readonly points: readonly Mm[];
  /** mm, half its drawn width */
  readonly half: number;
  readonly box: Rect;
}

export interface OnPipes {
  readonly ink: ReadonlyMap<PartId, PipeInk>;
  readonly boxes: ReadonlyMap<string, Rect>;
  /** keys of labels that lie on a pipe */
  readonly keys: ReadonlySet<string>;
}

/** mm by which a label may reach into a pipe's wall: at rest they may touch */
const shared = 0.1;

/** @param before of a picture of the same parts, and which of them may have changed since; null where nothing is known */
export function labelsOnPipes(
  drawing: Drawing,
  labels: readonly PlacedLabel[],
  before: { readonly changed: ReadonlySet<PartId>; readonly was: OnPipes } | null,
): OnPipes {
  const ink = before ? new Map(before.was.ink) : inkOf(drawing, drawing.section.parts.keys());
  const moved: PipeInk[] = [];
  if (before)
    for (const [id, now] of inkOf(drawing, before.changed)) {
      if (isSame(before.was.ink.get(id), now)) continue;
      ink.set(id, now);
      moved.push(now);
    }
  const keys = new Set<string>();
  const boxes = new Map<string, Rect>();
  for (const { key, box } of labels) {
    boxes.set(key, box);
    const was = before?.was.boxes.get(key);
    const isStill = was !== undefined && !before?.was.keys.has(key) && sameRect(was, box);
    // One that kept its place and was clear can only have been met by what moved.
    const near = isStill ? moved : ink.values();
    for (const pipe of near)
      if (overlap(pipe.box, box) && runsThrough(pipe.points, grown(box, -shared), pipe.half)) {
        keys.add(key);
        break;
      }
  }
  return { ink, boxes, keys };
}

function inkOf(drawing: Drawing, ids: Iterable<PartId>): Map<PartId, PipeInk> {
  const ink = new Map<PartId, PipeInk>();
  for (const id of ids) {
    const pipe = drawing.section.parts.get(id);
    if (pipe?.kind !== "pipe") continue;
    const points = pipeLine(drawing.section, pipe).map((place) => paperAt(drawing, place));
    const half = halfWidth(drawing, pipe.bore);
    ink.set(id, { points, half, box: boxAround(points, half) });
  }
  return ink;
}

function boxAround(points: readonly Mm[], half: number): Rect {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [x, y] = [Math.min(...xs) - half, Math.min(...ys) - half];
  return { x, y, width: Math.max(...xs) + half - x, height: Math.max(...ys) + half - y };
}

const isSame = (was: PipeInk | undefined, now: PipeInk): boolean =>
  was !== undefined &&
  was.half === now.half &&
  was.points.length === now.points.length &&
  now.points.every(([x, y], i) => x === was.points[i]?.[0] && y === was.points[i]?.[1]);

const sameRect = (a: Rect, b: Rect): boolean =>
  a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height;
