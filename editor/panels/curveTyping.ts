/** A maker's curve while its table is open: what of it was typed, what waits because it can not be, and what gives way.
 *
 * A curve must be whole at every moment, since the water is worked out after each figure; a table is typed one figure
 * at a time. So figures that nobody typed since the table was opened make way (`curveWay.ts`), and those that were
 * typed never move. A figure that contradicts one of these waits in its field, with the reason under it, and is taken
 * as soon as the reason is gone. */
import type { UnitSystem } from "../sheet/units.ts";
import { makeWay } from "./curveWay.ts";

export type CurvePoint = readonly [flow: number, head: number];
export type Curve = readonly CurvePoint[];
/** 0: the flow, 1: the head */
export type Side = 0 | 1;

/** What stands in a field and not in the drawing. */
export interface Waiting {
  readonly text: string;
  /** those it was typed in: a bare number means another flow in others */
  readonly units: UnitSystem;
  /** null where it could not be read */
  readonly value: number | null;
}

export interface CurveRow {
  /** as it stood before anything was typed */
  readonly base: CurvePoint;
  readonly typed: readonly [flow: number | null, head: number | null];
  readonly waiting: readonly [flow: Waiting | null, head: Waiting | null];
}

export type CurveRows = readonly CurveRow[];

/** Whether a drawing can hold this curve: its figures may be larger than any pump's. */
export type Holds = (curve: Curve) => boolean;

const isTyped = ({ typed: [flow, head] }: CurveRow): boolean => flow !== null || head !== null;

const untouched = (base: CurvePoint): CurveRow => ({ base, typed: [null, null], waiting: [null, null] });

export const openedCurve = (curve: Curve): CurveRows => curve.map(untouched);

/** The curve as it stands; null where what was typed makes none. Flows rise downwards, heads upwards. */
export function curveOf(rows: CurveRows): Curve | null {
  const flows = makeWay(
    rows.map(({ base }) => base[0]),
    rows.map(({ typed }) => typed[0]),
  );
  const heads = makeWay(rows.map(({ base }) => base[1]).reverse(), rows.map(({ typed }) => typed[1]).reverse());
  if (!flows || !heads) return null;
  return flows.map((flow, row) => [flow, heads[rows.length - 1 - row] as number]);
}

/** A figure is typed: it is taken, with all that waited for it, or it waits. */
export function typeFigure(rows: CurveRows, row: number, side: Side, typed: Waiting, holds: Holds): CurveRows {
  return takeWaiting(setWaiting(rows, row, side, typed), holds, [row, side]);
}

/** A table is put in at once, from a row on, with more rows where it is longer. Of flows and heads, it ends the curve:
 * what nobody typed below it goes, for its last head may be 0, and from the first row on it is the whole curve. */
export function typeTable(
  rows: CurveRows,
  from: number,
  table: readonly CurveRow["waiting"][],
  holds: Holds,
): CurveRows {
  const end = from + table.length;
  const isWhole = table.length > 1 && table.every(([flow, head]) => flow !== null && head !== null);
  const room = withRows(rows, end).filter((row, i) => i < end || !isWhole || (from > 0 && isTyped(row)));
  return takeWaiting(
    room.map((row, i) => {
      const [flow, head] = table[i - from] ?? [null, null];
      return { ...row, waiting: [flow ?? row.waiting[0], head ?? row.waiting[1]] };
    }),
    holds,
  );
}

/** The field goes back to what the drawing holds. */
export const dropWaiting = (rows: CurveRows, row: number, side: Side): CurveRows => setWaiting(rows, row, side, null);

/** The other points stay where they are: where they made way, that is their place from now on. */
export function takeOutPoint(rows: CurveRows, row: number, holds: Holds): CurveRows {
  return takeWaiting(
    settled(rows).filter((_each, i) => i !== row),
    holds,
  );
}

/** One more row, at the place where a person who types downwards needs it: after the last row that was typed, as long
 * as a head can still fall below it; before anything was typed, in the middle of the widest gap. */
export function addPoint(rows: CurveRows): CurveRows {
  const now = settled(rows);
  const end = now.at(-1)?.base[1] ?? 0;
  const last = now.findLastIndex(isTyped);
  if (last === now.length - 1 && end > 0) return [...now, untouched(pastTheEnd(now.map(({ base }) => base)))];
  const after = last >= 0 && last < now.length - 1 ? last : widestGap(now);
  const [flow, head] = (now[after] as CurveRow).base;
  const [nextFlow, nextHead] = (now[after + 1] as CurveRow).base;
  const between = untouched([(flow + nextFlow) / 2, (head + nextHead) / 2]);
  return [...now.slice(0, after + 1), between, ...now.slice(after + 1)];
}

/** The rows of which a figure is not where it was when the table was opened, though nobody typed it. */
export function rowsMoved(rows: CurveRows): readonly number[] {
  const curve = curveOf(rows) ?? [];
  const moved = (row: CurveRow, i: number, side: Side): boolean =>
    row.typed[side] === null && row.base[side] !== curve[i]?.[side];
  return rows.flatMap((row, i) => (moved(row, i, 0) || moved(row, i, 1) ? [i] : []));
}

/** New rows lie between the last two, where they are a curve whatever these are; a table that is put in moves them. */
function withRows(rows: CurveRows, count: number): CurveRows {
  if (count <= rows.length) return rows;
  const now = settled(rows);
  const [before, last] = now.slice(-2) as [CurveRow, CurveRow];
  const parts = count - now.length + 1;
  const at = (k: number, side: Side): number => before.base[side] + ((last.base[side] - before.base[side]) * k) / parts;
  const between = Array.from({ length: parts - 1 }, (_, k) => untouched([at(k + 1, 0), at(k + 1, 1)]));
  return [...now.slice(0, -1), ...between, last];
}

const with2 = <T>(pair: readonly [T, T], side: Side, value: T): readonly [T, T] =>
  side === 0 ? [value, pair[1]] : [pair[0], value];

const setWaiting = (rows: CurveRows, row: number, side: Side, waits: Waiting | null): CurveRows =>
  rows.map((each, i) => (i === row ? { ...each, waiting: with2(each.waiting, side, waits) } : each));

type Cell = readonly [row: number, side: Side];

/** Takes what waits and can be taken: all of it at once, for two figures may only fit together, else one after the
 * other, `newest` first. */
function takeWaiting(rows: CurveRows, holds: Holds, newest?: Cell): CurveRows {
  const fits = (tried: CurveRows): boolean => {
    const curve = curveOf(tried);
    return curve !== null && holds(curve);
  };
  const waits = rows.flatMap(({ waiting }, row) =>
    ([0, 1] as const).flatMap((side): Cell[] => (typeof waiting[side]?.value === "number" ? [[row, side]] : [])),
  );
  const together = waits.reduce(take, rows);
  if (fits(together)) return together;
  const inTurn = newest ? [newest, ...waits.filter(([row, side]) => row !== newest[0] || side !== newest[1])] : waits;
  for (const cell of inTurn) {
    const next = take(rows, cell);
    // One that is taken may let in one that was tried before it.
    if (next !== rows && fits(next)) return takeWaiting(next, holds);
  }
  return rows;
}

function take(rows: CurveRows, [row, side]: Cell): CurveRows {
  const value = rows[row]?.waiting[side]?.value ?? null;
  if (value === null) return rows;
  return rows.map((each, i) =>
    i === row ? { ...each, typed: with2(each.typed, side, value), waiting: with2(each.waiting, side, null) } : each,
  );
}

/** The same with every point at home where it stands now. */
function settled(rows: CurveRows): CurveRows {
  const curve = curveOf(rows);
  return curve ? rows.map((row, i) => ({ ...row, base: curve[i] as CurvePoint })) : rows;
}

/** As far again as the last two points lie apart, half as high as the last. */
function pastTheEnd(curve: Curve): CurvePoint {
  const [before, last] = curve.slice(-2) as [CurvePoint, CurvePoint];
  return [last[0] + (last[0] - before[0]), last[1] / 2];
}

/** The row above it. */
function widestGap(rows: CurveRows): number {
  const width = (i: number): number => (rows[i + 1]?.base[0] ?? 0) - (rows[i]?.base[0] ?? 0);
  let widest = 0;
  for (let i = 1; i < rows.length - 1; i++) if (width(i) > width(widest)) widest = i;
  return widest;
}
