/** Prices and stock lengths that the user typed. A drawing's file has no place for them: they belong to the person and
 * the shop, and the next drawing wants them again. Kept by the browser, row by row; what is handed out prints them. */
import { get, set } from "idb-keyval";
import type { Bought } from "../../svg/groups/materials.ts";

const place = "materials-prices";

let kept: Required<Bought> = { prices: new Map(), stock: new Map() };
const listeners = new Set<() => void>();

export const pricesNow = (): Required<Bought> => kept;

export const subscribePrices = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Out of the browser's store, where another window may have left newer ones. */
export async function readPrices(): Promise<void> {
  const before = kept;
  try {
    const read = keptOf(await get(place));
    // What was typed before the store answered stays.
    if (kept === before) hold(read);
  } catch {
    // A browser that keeps nothing (a private window) still counts.
  }
}

/** Null takes the price away. Rejects where the browser does not keep it; it counts until the page is left. */
export async function changePrice(what: keyof Bought, key: string, value: number | null): Promise<void> {
  const map = new Map(kept[what]);
  if (value === null) map.delete(key);
  else map.set(key, value);
  hold({ ...kept, [what]: map });
  await set(place, kept);
}

function hold(next: Required<Bought>): void {
  kept = next;
  for (const listener of listeners) listener();
}

/** Whatever lies in the browser's store is looked at before it is used: an older or a broken one is nothing. */
function keptOf(value: unknown): Required<Bought> {
  const { prices, stock } = typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};
  return { prices: numbersOf(prices), stock: numbersOf(stock) };
}

const numbersOf = (value: unknown): ReadonlyMap<string, number> =>
  new Map(
    (value instanceof Map ? [...value] : []).filter(
      (entry): entry is [string, number] =>
        typeof entry[0] === "string" && typeof entry[1] === "number" && Number.isFinite(entry[1]) && entry[1] >= 0,
    ),
  );
