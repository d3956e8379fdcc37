/** The readings that are others than before: of a large drawing most water runs on as it did, and what is sent from a
 * worker has to be made anew on the page's side, reading by reading. */
import type { PartId, Running, RunningState } from "../../hydraulics/index.ts";

const tables = ["pumps", "pipes", "vessels", "vents", "ponds", "spillways"] as const;
type Table = (typeof tables)[number];

export type RunningDelta =
  | { readonly kind: "whole"; readonly running: Running }
  | {
      readonly kind: "changes";
      readonly set: Readonly<Record<Table, readonly (readonly [PartId, object])[]>>;
      readonly gone: Readonly<Record<Table, readonly PartId[]>>;
      readonly rest: Pick<RunningState, "iterations" | "residual">;
    };

export function runningDelta(before: Running | null, now: Running): RunningDelta {
  if (!before?.converged || !now.converged) return { kind: "whole", running: now };
  const set = {} as Record<Table, (readonly [PartId, object])[]>;
  const gone = {} as Record<Table, PartId[]>;
  for (const table of tables) {
    const was: ReadonlyMap<PartId, object> = before[table];
    const is: ReadonlyMap<PartId, object> = now[table];
    set[table] = [...is].filter(([id, reading]) => !sameReading(was.get(id), reading));
    gone[table] = [...was.keys()].filter((id) => !is.has(id));
  }
  return { kind: "changes", set, gone, rest: { iterations: now.iterations, residual: now.residual } };
}

/** @param before the state that the changes were made from; what did not change stays the same object */
export function withRunningDelta(before: Running | null, delta: RunningDelta): Running {
  if (delta.kind === "whole") return delta.running;
  if (!before?.converged) throw new Error("changes to a running state that is not known");
  const maps = Object.fromEntries(
    tables.map((table) => {
      const rows = new Map<PartId, object>(before[table]);
      for (const id of delta.gone[table]) rows.delete(id);
      for (const [id, reading] of delta.set[table]) rows.set(id, reading);
      return [table, rows];
    }),
  ) as unknown as Pick<RunningState, Table>;
  return { ...before, ...maps, ...delta.rest };
}

/** A ten-billionth part: under every digit shown, over what two solves of the same water differ by. */
function sameReading(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= 1e-10 * (1 + Math.abs(a));
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  const [keysA, keysB] = [Object.keys(a), Object.keys(b)];
  return (
    keysA.length === keysB.length &&
    keysB.every((key) => sameReading((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]))
  );
}
