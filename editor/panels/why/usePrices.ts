/** Prices and stock lengths that the user typed. A drawing's file has no place for them: they belong to the person and
 * the shop, and the next drawing wants them again. Kept by the browser, row by row. */
import { get, set } from "idb-keyval";
import { useCallback, useEffect, useState } from "react";
import { useProgram } from "../useDesk.ts";

export interface Prices {
  readonly prices: ReadonlyMap<string, number>;
  /** m */
  readonly stock: ReadonlyMap<string, number>;
  /** null: nothing is wrong with it */
  readonly setPrice: (key: string, price: number | null) => null;
  readonly setStock: (key: string, length: number | null) => null;
}

interface Kept {
  readonly prices: ReadonlyMap<string, number>;
  readonly stock: ReadonlyMap<string, number>;
}

const place = "materials-prices";
const none: Kept = { prices: new Map(), stock: new Map() };

/** Whatever lies in the browser's store is looked at before it is used: an older or a broken one is nothing. */
function keptOf(value: unknown): Kept {
  if (typeof value !== "object" || value === null) return none;
  const { prices, stock } = value as { prices?: unknown; stock?: unknown };
  return { prices: numbersOf(prices), stock: numbersOf(stock) };
}

const numbersOf = (value: unknown): ReadonlyMap<string, number> =>
  new Map(
    (value instanceof Map ? [...value] : []).filter(
      (entry): entry is [string, number] =>
        typeof entry[0] === "string" && typeof entry[1] === "number" && Number.isFinite(entry[1]) && entry[1] >= 0,
    ),
  );

export function usePrices(): Prices {
  const { desk } = useProgram();
  const [kept, setKept] = useState(none);
  useEffect(() => {
    // A browser that keeps nothing (a private window) still counts.
    get(place).then(
      (value) => setKept(keptOf(value)),
      () => {},
    );
  }, []);
  const change = useCallback(
    (what: keyof Kept, key: string, value: number | null): null => {
      setKept((was) => {
        const map = new Map(was[what]);
        if (value === null) map.delete(key);
        else map.set(key, value);
        const next = { ...was, [what]: map };
        set(place, next).catch(() =>
          desk.say({
            text: "The browser does not keep the prices; they count until this page is left.",
            tone: "refusal",
          }),
        );
        return next;
      });
      return null;
    },
    [desk],
  );
  return {
    ...kept,
    setPrice: useCallback((key, price) => change("prices", key, price), [change]),
    setStock: useCallback((key, length) => change("stock", key, length), [change]),
  };
}
