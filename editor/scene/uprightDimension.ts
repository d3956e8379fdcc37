/** A height with true distance, at the first of its places that is free. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { aside, drawDimension, size } from "./dimensionInk.ts";
import type { Drawing } from "./drawing.ts";
import { rulerWidth } from "./layout.ts";
import type { SceneNode } from "./node.ts";
import { type Mm, type Obstacles, runsThrough } from "./obstacles.ts";
import { textWidth } from "./textWidth.ts";

/** Which of its places each upright dimension took, by key. */
export type DimensionPlaces = ReadonlyMap<string, number>;

/** What upright dimensions ask before they stand somewhere. */
export interface Ground {
  readonly obstacles: Obstacles;
  /** where they stood before the hand took hold of something: they keep to it while that moves */
  readonly held: DimensionPlaces | null;
  readonly places: Map<string, number>;
  /** where the ground line runs: a dimension may cross it, its figure may not */
  readonly line: () => readonly (readonly Mm[])[];
}

export interface Upright {
  readonly key: string;
  readonly part: PartId;
  readonly top: number;
  readonly bottom: number;
  readonly text: string;
  /** x, best first */
  readonly tries: readonly number[];
  /** x from which a helping line runs to the dimension; null where none is needed */
  readonly helpTop: number | null;
  readonly helpBottom: number | null;
  /** whether it reads there as what it measures, and not as another's height. Asked for only when a place is sought */
  readonly isOwn: (x: number, box: Rect) => boolean;
}

export function upright(
  drawing: Drawing,
  { obstacles, held, places, line }: Ground,
  { key, part, top, bottom, text, tries, helpTop, helpBottom, isOwn }: Upright,
): readonly SceneNode[] {
  const [high, low] = [Math.min(top, bottom), Math.max(top, bottom)];
  const long = textWidth(text, size, 500) + 2.6;
  const stands = long < low - high;
  const { field } = drawing.layout;
  for (const [place, x] of tries.entries()) {
    if (held && held.get(key) !== place) continue;
    // Both ends stand on lines of their own: the box keeps off everything between.
    const box = { x: x - 4.4, y: high + 0.6, width: 5.6, height: low - high - 1.2 };
    const inside = box.x > field.x + rulerWidth && x < field.x + field.width - 2;
    if (!inside || !stands || (!held && !(obstacles.isFree(box) && isOwn(x, box)))) continue;
    const across = (y: number, from: number | null): readonly [Mm, Mm] =>
      from === null
        ? [
            [x - 2.4, y],
            [x + 1.6, y],
          ]
        : [
            [from, y],
            [x + Math.sign(x - from) * 1.6, y],
          ];
    const helps = [
      across(top, helpTop),
      helpBottom === null
        ? ([
            [x - 1.6, bottom],
            [x + 1.6, bottom],
          ] as const)
        : across(bottom, null),
    ];
    // A long one must not run through another dimension's figures.
    if (!held && !helps.every((help) => obstacles.isClearLine(help, false, 0))) continue;
    const figureAt = clearOf(line(), x, [high, low], textWidth(text, size, 500));
    if (figureAt === null) continue;
    places.set(key, place);
    obstacles.addRect(box);
    for (const end of [top, bottom]) obstacles.addRect({ x: x - 1.2, y: end - 1.2, width: 2.4, height: 2.4 });
    for (const help of helps) obstacles.addLine(help, 0.2);
    return drawDimension({ key, part, from: [x, bottom], to: [x, top], text, figureAt, helps });
  }
  return [];
}

/** mm that a figure keeps off its dimension's ends, and off the ground line with half its width */
const offEnds = 1.3;
const offGround = 0.7;
const stepAlong = 0.5;

/** The middle of a figure that no ground line runs through, as near to the dimension's as there is one; null where the
 * ground leaves no room for it. */
function clearOf(
  lines: readonly (readonly Mm[])[],
  x: number,
  [high, low]: readonly [number, number],
  width: number,
): number | null {
  const middle = (high + low) / 2;
  const most = (low - high - width) / 2 - offEnds;
  const isClear = (at: number): boolean => {
    const figure = { x: x - aside - 0.75 * size, y: at - width / 2, width: size, height: width };
    return !lines.some((line) => runsThrough(line, figure, offGround));
  };
  for (let off = 0; off <= most; off += stepAlong) {
    if (isClear(middle - off)) return middle - off;
    if (isClear(middle + off)) return middle + off;
  }
  return null;
}
