/** One column of the tables under the section: items of one line or several, and what must not fall away. */
import { words } from "../scene/ink.ts";
import { letters } from "../scene/letters.ts";
import type { Role, SceneNode, TextNode, Weight } from "../scene/node.ts";
import type { Rect } from "../sheet/transform.ts";

export interface Cell {
  /** mm from the column's left edge */
  readonly x: number;
  readonly text: string;
  readonly anchor?: TextNode["anchor"];
  readonly weight?: Weight;
  readonly fill?: Role;
}

export type TableLine = readonly Cell[];
/** Lines that stand or fall together. */
export type TableItem = readonly TableLine[];

export interface TableColumn {
  readonly key: string;
  readonly title: string;
  readonly items: readonly TableItem[];
  /** kept whatever the items come to */
  readonly tail: readonly TableItem[];
  /** `2 more pipes`, for what does not fit */
  readonly more: (count: number) => string;
}

export const pitch = 3.9;
const titlePitch = 5.2;
const above = 4.6;
const under = 2;

const linesIn = (items: readonly TableItem[]): number => items.reduce((sum, item) => sum + item.length, 0);

/** mm that a column takes with everything in it. */
export const columnHeight = ({ items, tail }: TableColumn): number =>
  above + titlePitch + (linesIn(items) + linesIn(tail) - 1) * pitch + under;

/** mm that it takes at the least: what may not fall away. */
export const leastHeight = (column: TableColumn): number => columnHeight({ ...column, items: [[[]]] });

export function drawColumn(column: TableColumn, rect: Rect): readonly SceneNode[] {
  const room = Math.floor((rect.height - above - titlePitch - under) / pitch + 1 + 1e-9) - linesIn(column.tail);
  const lines = [...fitting(column, room), ...column.tail.flat()];
  const title = words(`sheet ${column.key} title`, [rect.x, rect.y + above], column.title, { size: letters.note, weight: 600 });
  return [
    title,
    ...lines.flatMap((cells, i) =>
      cells.map(({ x, text, anchor, weight, fill }, j) =>
        words(`sheet ${column.key} ${i} ${j}`, [rect.x + x, rect.y + above + titlePitch + i * pitch], text, {
          size: letters.small,
          ...(anchor ? { anchor } : {}),
          ...(weight ? { weight } : {}),
          ...(fill ? { fill } : {}),
        }),
      ),
    ),
  ];
}

function fitting({ items, more }: TableColumn, room: number): readonly TableLine[] {
  if (linesIn(items) <= room) return items.flat();
  const kept: TableLine[] = [];
  let count = 0;
  for (const item of items) {
    if (kept.length + item.length > room - 1) break;
    kept.push(...item);
    count += 1;
  }
  return [...kept, [{ x: 0, text: more(items.length - count), fill: "soft" }]];
}
