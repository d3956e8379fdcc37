/** The levels on the strip as curves, and at their ends whose they are and where they come to. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatLevel } from "../sheet/units.ts";
import { type Drawing, nameById } from "./drawing.ts";
import { words } from "./ink.ts";
import { letters } from "./letters.ts";
import type { Role, SceneNode } from "./node.ts";
import type { Mm, Obstacles } from "./obstacles.ts";
import { cutText } from "./plainText.ts";
import type { PlayedRun } from "./played.ts";
import { textWidth } from "./textWidth.ts";

export interface Curve {
  readonly id: PartId;
  readonly points: readonly Mm[];
}

/** To what can be seen: a point every half millimetre, and every extreme between. */
export function thinned(xs: readonly number[], levels: readonly number[], y: (level: number) => number): readonly Mm[] {
  const points: Mm[] = [];
  let [lastX, lastY] = [Number.NEGATIVE_INFINITY, 0];
  for (let i = 0; i < xs.length; i++) {
    const [atX, atY] = [xs[i] as number, y(levels[i] as number)];
    if (i < xs.length - 1 && Math.abs(atX - lastX) < 0.5 && Math.abs(atY - lastY) < 0.3) continue;
    points.push([atX, atY]);
    [lastX, lastY] = [atX, atY];
  }
  return points;
}

/** As few points as words need to keep off a curve: one that hardly rises or falls is a single line. */
export function levelled(points: readonly Mm[]): readonly Mm[] {
  const kept: Mm[] = [];
  for (const [i, point] of points.entries()) {
    const next = points[i + 1];
    const start = kept.at(-1);
    if (!start || !next || Math.abs(next[1] - start[1]) > 0.02) kept.push(point);
  }
  return kept;
}

const roleOf = (run: PlayedRun, id: PartId): Role => run.ends.get(id)?.curve ?? "ink";

export const curveNodes = (run: PlayedRun, id: PartId, points: readonly Mm[]): readonly SceneNode[] => [
  {
    key: `sheet strip curve ${id}`,
    part: null,
    space: "paper",
    layer: "frame",
    shape: "line",
    points,
    stroke: roleOf(run, id),
    pen: "part",
    join: "round",
  },
];

/** Who it is and where it ends, over or under its curve, as near to its right end as there is room: first those that a
 * failure is of, then vessels. Where the words do not fit anywhere fewer do. */
export function endWords(
  drawing: Drawing,
  run: PlayedRun,
  curves: readonly Curve[],
  area: Rect,
  obstacles: Obstacles,
): readonly SceneNode[] {
  const weight = ({ id }: Curve): number => importance.indexOf(roleOf(run, id));
  return [...curves]
    .sort((a, b) => weight(a) - weight(b))
    .flatMap(({ id, points }): readonly SceneNode[] => {
      const end = points.at(-1) as Mm;
      const style = { size: letters.small, weight: 500 } as const;
      const fill = roleOf(run, id);
      for (const says of endTexts(drawing, run, id)) {
        const text = cutText(says, area.width * 0.6, style);
        const width = textWidth(text, style.size, style.weight);
        for (const right of backs.map((back) => end[0] - back)) {
          if (right - width < area.x) break;
          // The curve may slope under its words: they keep off its highest or lowest place there.
          const [highest, lowest] = reachBetween(points, right - width - 2, right + 2);
          for (const top of [highest - 3.6, lowest + 0.9]) {
            const place = { x: right - width, y: top, width, height: 2.9 };
            if (!obstacles.isFree(place)) continue;
            obstacles.addRect(place);
            return [words(`sheet strip name ${id}`, [right, top + 2.3], text, { ...style, fill, anchor: "end" })];
          }
        }
      }
      return [];
    });
}

/** mm from a curve's end to that of its words */
const backs: readonly number[] = [2, 6, 12, 18, 25, 33, 42, 52, 63, 75, 88, 102, 117, 133, 150, 168];

const importance: readonly Role[] = ["drains", "part", "waterline", "ink"];

/** The highest and the lowest of a curve between two places, and where it ends. */
function reachBetween(points: readonly Mm[], left: number, right: number): readonly [number, number] {
  const [, end] = points.at(-1) as Mm;
  let [highest, lowest] = [end, end];
  // Curves go from left to right.
  for (let i = points.length - 1; i >= 0; i--) {
    const [x, y] = points[i] as Mm;
    if (x <= left) break;
    if (x >= right) continue;
    highest = Math.min(highest, y);
    lowest = Math.max(lowest, y);
  }
  return [highest, lowest];
}

/** The most words first. */
function endTexts(drawing: Drawing, run: PlayedRun, id: PartId): readonly string[] {
  const name = nameById(drawing.section, id);
  const end = run.ends.get(id);
  if (!end) return [name];
  const level = formatLevel(end.level, drawing.system);
  return [`${name} ${end.word} ${level}`, `${name} ${level}`, name];
}
