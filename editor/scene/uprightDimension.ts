/** A height with true distance, at the first of its places that is free. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { drawDimension, size } from "./dimensionInk.ts";
import type { Drawing } from "./drawing.ts";
import { rulerWidth } from "./layout.ts";
import type { SceneNode } from "./node.ts";
import type { Mm, Obstacles } from "./obstacles.ts";
import { textWidth } from "./textWidth.ts";

/** Which of its places each upright dimension took, by key. */
export type DimensionPlaces = ReadonlyMap<string, number>;

/** What upright dimensions ask before they stand somewhere. */
export interface Ground {
  readonly obstacles: Obstacles;
  /** where they stood before the hand took hold of something: they keep to it while that moves */
  readonly held: DimensionPlaces | null;
  readonly places: Map<string, number>;
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
  { obstacles, held, places }: Ground,
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
    places.set(key, place);
    obstacles.addRect(box);
    for (const end of [top, bottom]) obstacles.addRect({ x: x - 1.2, y: end - 1.2, width: 2.4, height: 2.4 });
    for (const help of helps) obstacles.addLine(help, 0.2);
    return drawDimension({ key, part, from: [x, bottom], to: [x, top], text, helps });
  }
  return [];
}
