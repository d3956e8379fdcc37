/** Readings as a sheet can show them: a billionth of an SI unit, or a sixteen-millionth of the reading where that is
 * more, is under a hair's breadth and under any digit written. Two solves of the same water differ in their last bits; rounded they are equal, and what they say need not be drawn
 * again. Lists along a pipe are left out: the sheet draws none of them. */
import type { PartId, RunningState } from "../../hydraulics/index.ts";

type Scalar = number | string | boolean | null;
/** A reading without its lists. */
type Seen<T> = { readonly [K in keyof T as T[K] extends Scalar ? K : never]: T[K] };
type SeenMap<M> = M extends ReadonlyMap<PartId, infer T> ? ReadonlyMap<PartId, Seen<T>> : never;

const tables = ["pumps", "pipes", "vessels", "vents", "ponds", "spillways"] as const;
export type SeenRunning = { readonly [K in (typeof tables)[number]]: SeenMap<RunningState[K]> };

const known = new WeakMap<RunningState, SeenRunning>();

export function seenRunning(running: RunningState): SeenRunning {
  let seen = known.get(running);
  if (!seen) {
    seen = Object.fromEntries(tables.map((table) => [table, seenTable(running[table])])) as unknown as SeenRunning;
    known.set(running, seen);
  }
  return seen;
}

type Row = Readonly<Record<string, Scalar>>;

/** A reading that is as it was is the same object from solve to solve. */
const knownRows = new WeakMap<object, Row>();

function seenTable(table: ReadonlyMap<PartId, object>): ReadonlyMap<PartId, Row> {
  const seen = new Map<PartId, Row>();
  for (const [id, reading] of table) {
    let row = knownRows.get(reading);
    if (!row) {
      row = seenRow(reading);
      knownRows.set(reading, row);
    }
    seen.set(id, row);
  }
  return seen;
}

function seenRow(reading: object): Row {
  const row: Record<string, Scalar> = {};
  for (const [name, value] of Object.entries(reading)) {
    if (typeof value === "number") row[name] = Math.fround(Math.round(value * 1e9) / 1e9);
    else if (typeof value !== "object" || value === null) row[name] = value;
  }
  return row;
}

/** Parts whose readings are not the same in both. */
export function partsThatRead(before: SeenRunning, now: SeenRunning): ReadonlySet<PartId> {
  const other = new Set<PartId>();
  if (before === now) return other;
  for (const table of tables) {
    const [was, is] = [before[table], now[table]] as ReadonlyMap<PartId, Row>[];
    for (const [id, reading] of is ?? []) if (!sameRow(was?.get(id), reading)) other.add(id);
    for (const id of was?.keys() ?? []) if (!is?.has(id)) other.add(id);
  }
  return other;
}

function sameRow(a: Row | undefined, b: Row): boolean {
  if (a === b) return true;
  if (!a) return false;
  for (const name in b) if (!Object.is(a[name], b[name])) return false;
  return true;
}
