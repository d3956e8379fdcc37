import { solveRunning } from "../assess.ts";
import { partId } from "../document/section.ts";
import type { Box } from "./box.ts";
import type { SupplyChoice } from "./supplyChoice.ts";
import { walkDrawing } from "./walkDrawing.ts";
import type { WalkWish } from "./wish.ts";

export interface ReturnChoice {
  readonly size: string;
  readonly bore: number;
  readonly margin: number | null;
  readonly meets: boolean;
  readonly why: string;
}

const leastMargin = 1.5;

export function returnChoice(wish: WalkWish, supply: SupplyChoice, size: string, bore: number, box: Box): ReturnChoice {
  if (bore <= supply.bore) return { size, bore, margin: null, meets: false, why: "not wider than the supply" };
  const { running } = solveRunning(walkDrawing(wish, supply, { bore, size }, box), { quick: true });
  const margin = running.converged ? (running.vessels.get(partId("filter"))?.returnMargin ?? null) : null;
  const meets = margin !== null && margin >= leastMargin;
  return {
    size,
    bore,
    margin,
    meets,
    why: margin === null ? "not solved" : meets ? "" : "carries less than 1.5 times the flow",
  };
}
