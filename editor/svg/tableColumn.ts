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
  /** mm more between two items */
  readonly gap?: number;
  /** `2 more pipes`, for what does not fit */
  readonly more: (count: number) => string;
}

const pitch = 3.9;
const titlePitch = 5.2;
const above = 4.6;
const under = 2;

const itemsHeight = (items: readonly TableItem[], gap: number): number =>
  items.reduce((sum, item) => sum + item.length * pitch + gap, 0);

/** mm that a column takes with everything in it. */
export const columnHeight = ({ items, tail, gap = 0 }: TableColumn): number =>
  above + titlePitch - pitch + itemsHeight([...items, ...tail], gap) + under;

/** mm that it takes at the least: what may not fall away, and a line that says how much did. */
export const leastHeight = (column: TableColumn): number =>
  columnHeight({ ...column, items: column.items.length > 0 ? [[[]]] : [] });

export function drawColumn(column: TableColumn, rect: Rect): readonly SceneNode[] {
  const { key, gap = 0 } = column;
  const nodes: SceneNode[] = [
    words(`sheet ${key} title`, [rect.x, rect.y + above], column.title, { size: letters.note, weight: 600 }),
  ];
  let y = rect.y + above + titlePitch;
  for (const [i, item] of fitting(column, rect.height).entries()) {
    for (const [j, line] of item.entries()) {
      nodes.push(...line.map((cell, k) => drawCell(`sheet ${key} ${i} ${j} ${k}`, cell, rect.x, y)));
      y += pitch;
    }
    y += gap;
  }
  return nodes;
}

const drawCell = (key: string, { x, text, anchor, weight, fill }: Cell, left: number, y: number): SceneNode =>
  words(key, [left + x, y], text, {
    size: letters.small,
    ...(anchor ? { anchor } : {}),
    ...(weight ? { weight } : {}),
    ...(fill ? { fill } : {}),
  });

/** As many items as the height takes, from the first, and all of the tail. */
function fitting(column: TableColumn, height: number): readonly TableItem[] {
  const { items, tail, more } = column;
  const fits = (kept: readonly TableItem[]): boolean => columnHeight({ ...column, items: kept }) <= height + 1e-9;
  if (fits(items)) return [...items, ...tail];
  let count = items.length;
  const shortened = (): readonly TableItem[] => [
    ...items.slice(0, count),
    [[{ x: 0, text: more(items.length - count), fill: "soft" }]],
  ];
  while (count > 0 && !fits(shortened())) count -= 1;
  return [...shortened(), ...tail];
}
