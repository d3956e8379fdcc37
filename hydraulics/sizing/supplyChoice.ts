import { lineLength, pipeLine } from "../document/geometry.ts";
import { partId } from "../document/section.ts";
import { g } from "../formulas/gravity.ts";
import { hoursPerYear } from "../formulas/runningCost.ts";
import { waterDensity } from "../formulas/water.ts";
import { headNeeded } from "../sweep/systemCurve.ts";
import { boxFor } from "./box.ts";
import { walkDrawing } from "./walkDrawing.ts";
import type { WalkWish } from "./wish.ts";

export interface SupplyChoice {
  readonly size: string;
  readonly bore: number;
  /** null where the solver found none */
  readonly head: number | null;
  readonly velocity: number;
  readonly watts: number | null;
  readonly yearlyCost: number | null;
  /** money over the years, pipe with it */
  readonly cost: number | null;
  readonly meets: boolean;
  readonly why: string;
}

/** m/s over which a supply is not taken: sources allow about 1 to 3 */
const fastest = 3;

/** @param returnBore wide enough to hold nothing up */
export function supplyChoice(
  wish: WalkWish,
  flow: number,
  size: string,
  bore: number,
  returnBore: number,
): SupplyChoice {
  const box = boxFor(flow, wish.lift + wish.vesselHeight + 1);
  const section = walkDrawing(wish, { bore, size }, { bore: returnBore, size: "" }, box);
  const { head } = headNeeded(section, partId("pump"), flow);
  const velocity = flow / ((Math.PI * bore ** 2) / 4);
  const watts = head === null ? null : (waterDensity(15) * g * flow * Math.max(0, head)) / wish.efficiency;
  const yearlyCost = watts === null ? null : (watts / 1000) * hoursPerYear * wish.tariff;
  const supply = section.parts.get(partId("supply"));
  const metres = supply?.kind === "pipe" ? lineLength(pipeLine(section, supply)) : 0;
  const cost = yearlyCost === null ? null : wish.years * yearlyCost + metres * bore * wish.pipePrice;
  const meets = head !== null && velocity <= fastest;
  return {
    size,
    bore,
    head,
    velocity,
    watts,
    yearlyCost,
    cost,
    meets,
    why: head === null ? "no head was found" : velocity > fastest ? "faster than 3 m/s" : "",
  };
}
