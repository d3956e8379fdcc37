import type { PartId } from "../document/section.ts";
import { type MaterialGroup, type MaterialRow, plainRow } from "./row.ts";

/** Things that are counted by the piece, the same ones together. */
export class Counted {
  private readonly all = new Map<string, { group: MaterialGroup; what: string; count: number; parts: Set<PartId> }>();

  /** @param own makes two things of one name two rows */
  add(group: MaterialGroup, what: string, part: PartId, own = "", count = 1): void {
    if (count <= 0) return;
    const key = `${group}: ${what}${own}`;
    const row = this.all.get(key) ?? { group, what, count: 0, parts: new Set() };
    row.count += count;
    row.parts.add(part);
    this.all.set(key, row);
  }

  rows(): readonly MaterialRow[] {
    const order: readonly MaterialGroup[] = ["fitting", "valve", "bulkhead", "sill", "pump"];
    return [...this.all]
      .map(([key, { group, what, count, parts }]) =>
        plainRow({ key, group, what, priced: "piece", amount: count, parts: [...parts] }),
      )
      .sort((a, b) => order.indexOf(a.group) - order.indexOf(b.group));
  }
}
