/** The user's prices and stock lengths, and with them the ways to change them (null takes one away). */
import { useCallback, useEffect, useSyncExternalStore } from "react";
import type { Bought } from "../../svg/groups/materials.ts";
import { useProgram } from "../useDesk.ts";
import { changePrice, pricesNow, readPrices, subscribePrices } from "./prices.ts";

export interface Prices extends Required<Bought> {
  /** null: nothing is wrong with it */
  readonly setPrice: (key: string, price: number | null) => null;
  readonly setStock: (key: string, length: number | null) => null;
}

export function useKeptPrices(): Required<Bought> {
  useEffect(() => void readPrices(), []);
  return useSyncExternalStore(subscribePrices, pricesNow);
}

export function usePrices(): Prices {
  const { desk } = useProgram();
  const kept = useKeptPrices();
  const change = useCallback(
    (what: keyof Bought, key: string, value: number | null): null => {
      changePrice(what, key, value).catch(() =>
        desk.say({
          text: "The browser does not keep the prices; they count until this page is left.",
          tone: "refusal",
        }),
      );
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
