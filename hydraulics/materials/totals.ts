/** What a list costs by the prices that were given, and what it leaves open. */
import type { MaterialRow } from "./row.ts";

export interface Totals {
  /** money; of the rows that have a price */
  readonly total: number;
  readonly priced: number;
  readonly unpriced: number;
}

/** To the cent, as each line of a bill is, so that lines add up to their total; null where the row has no price. */
export const costOf = (row: MaterialRow, prices: ReadonlyMap<string, number>): number | null => {
  const price = prices.get(row.key);
  return price === undefined ? null : Math.round(price * row.amount * 100) / 100;
};

export function totalsOf(rows: readonly MaterialRow[], prices: ReadonlyMap<string, number>): Totals {
  const costs = rows.map((row) => costOf(row, prices));
  const known = costs.filter((cost) => cost !== null);
  return {
    total: known.reduce((sum, cost) => sum + cost, 0),
    priced: known.length,
    unpriced: costs.length - known.length,
  };
}
