/** Columns of tables: groups of items under a title. What a column has no room for is counted on the sheet and goes on
 * to the next one, so that nothing is lost. */
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

export interface TableGroup {
  readonly key: string;
  readonly title: string;
  /** over the figures, on every sheet that the group goes on to */
  readonly head?: TableLine;
  readonly items: readonly TableItem[];
  /** mm more between two items */
  readonly gap?: number;
  /** whole on the first sheet, whatever else has to go on to the next */
  readonly kept?: boolean;
}

/** mm from line to line */
export const pitch = 3.9;
export const titlePitch = 5.2;
/** mm from a column's upper edge to its first line, and from its last line to the lower edge */
export const above = 4.6;
export const under = 2;
/** mm between two groups */
export const groupGap = 2.6;

export const itemHeight = (item: TableItem, gap = 0): number => item.length * pitch + gap;
export const headHeight = ({ head }: TableGroup): number => titlePitch + (head ? pitch : 0);

/** mm that the group takes with its first `count` items; where some are missing, a line says so. */
function groupHeight(group: TableGroup, count: number): number {
  const shown = group.items.slice(0, count).reduce((sum, item) => sum + itemHeight(item, group.gap), 0);
  return headHeight(group) + shown + (count < group.items.length ? pitch : 0);
}

const whole = (group: TableGroup): number => groupHeight(group, group.items.length);
const least = (group: TableGroup): number =>
  group.kept ? whole(group) : Math.min(groupHeight(group, 0), whole(group));

const stacked = (heights: readonly number[]): number =>
  above - pitch + heights.reduce((sum, height) => sum + height, 0) + Math.max(heights.length - 1, 0) * groupGap + under;

/** mm that a column takes with everything in it, and with what may not go on to another sheet. */
export const columnHeight = (groups: readonly TableGroup[]): number => stacked(groups.map(whole));
export const leastHeight = (groups: readonly TableGroup[]): number => stacked(groups.map(least));

/** How many items of each group a column of this height takes: as many as it can of the first, then of the next. */
export function itemsThatFit(groups: readonly TableGroup[], height: number): readonly number[] {
  let spare = height - leastHeight(groups) + 1e-9;
  return groups.map((group) => {
    if (group.kept) return group.items.length;
    const room = least(group) + spare;
    let count = group.items.length;
    if (whole(group) > room) {
      count = 0;
      let used = groupHeight(group, 0);
      for (const item of group.items) {
        used += itemHeight(item, group.gap);
        if (used > room) break;
        count += 1;
      }
    }
    spare -= groupHeight(group, count) - least(group);
    return count;
  });
}

export interface ColumnPlace {
  readonly rect: Rect;
  /** items of each group that are shown here */
  readonly counts: readonly number[];
  /** such as `sheet 2`, where the rest stands */
  readonly next: string;
}

export function drawColumn(groups: readonly TableGroup[], { rect, counts, next }: ColumnPlace): readonly SceneNode[] {
  const nodes: SceneNode[] = [];
  let y = rect.y + above;
  groups.forEach((group, g) => {
    const count = counts[g] ?? 0;
    const left = group.items.length - count;
    nodes.push(...drawGroupTitle(group, group.title, [rect.x, y]));
    y += headHeight(group);
    group.items.slice(0, count).forEach((item, i) => {
      nodes.push(...drawItem(`sheet ${group.key} ${i}`, item, [rect.x, y]));
      y += itemHeight(item, group.gap);
    });
    if (left > 0) {
      const text = count === 0 ? `${left} on ${next}` : `and ${left} more on ${next}`;
      nodes.push(drawCell(`sheet ${group.key} more`, { x: 0, text, fill: "soft" }, [rect.x, y]));
      y += pitch;
    }
    y += groupGap;
  });
  return nodes;
}

type At = readonly [x: number, y: number];

/** The title's line and, under it, the heads of the figures. */
export function drawGroupTitle({ key, head }: TableGroup, title: string, [x, y]: At): readonly SceneNode[] {
  return [
    words(`sheet ${key} title`, [x, y], title, { size: letters.note, weight: 600 }),
    ...(head ?? []).map((cell, k) => drawCell(`sheet ${key} head ${k}`, cell, [x, y + titlePitch])),
  ];
}

export const drawItem = (key: string, item: TableItem, [x, y]: At): readonly SceneNode[] =>
  item.flatMap((line, j) => line.map((cell, k) => drawCell(`${key} ${j} ${k}`, cell, [x, y + j * pitch])));

const drawCell = (key: string, { x, text, anchor, weight, fill }: Cell, [left, y]: At): SceneNode =>
  words(key, [left + x, y], text, {
    size: letters.small,
    ...(anchor ? { anchor } : {}),
    ...(weight ? { weight } : {}),
    ...(fill ? { fill } : {}),
  });
