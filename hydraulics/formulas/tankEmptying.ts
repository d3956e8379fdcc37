/** Time for the level over an opening to fall, in closed form: the yardstick of the simulations, which do not use it.
 *     one tank:   t = 2A·(√h1 − √h2)/(Cd·a·√(2g))
 *     two tanks:  the same on the difference of level, A = A1·A2/(A1 + A2)
 *     with inflow: dh/dt = (qin − k·√h)/A,  t = (2A/k)·[ √h1 − √h2 + (qin/k)·ln((k√h1 − qin)/(k√h2 − qin)) ]
 *     laminar pipe: h falls as e^(−t/τ), τ = 128·ν·L·A/(π·g·D⁴)
 *     t s · A m² plan, a m² opening · h m · qin m³/s · k = Cd·a·√(2g)
 * Holds for upright walls, an opening that stays covered,
 * and levels that do not pass the one at which inflow and outflow meet.
 * Source: any hydraulics textbook; published/tankEmptying.test.ts. */
import { g } from "./gravity.ts";

export interface Opening {
  readonly area: number;
  readonly Cd: number;
}

const perRootHead = ({ area, Cd }: Opening, gravity: number): number => Cd * area * Math.sqrt(2 * gravity);

export const emptyingTime = (plan: number, opening: Opening, from: number, to: number, gravity = g): number =>
  (2 * plan * (Math.sqrt(from) - Math.sqrt(to))) / perRootHead(opening, gravity);

/** The plan that stands for two tanks joined: their difference of level falls as if it were one tank's. */
export const joinedPlan = (plan1: number, plan2: number): number => (plan1 * plan2) / (plan1 + plan2);

export function emptyingTimeWithInflow(plan: number, k: number, inflow: number, from: number, to: number): number {
  const a = Math.sqrt(from);
  const b = Math.sqrt(to);
  return ((2 * plan) / k) * (a - b + (inflow / k) * Math.log((k * a - inflow) / (k * b - inflow)));
}

export const emptyingTimeLaminar = (
  plan: number,
  pipe: { L: number; D: number; viscosity: number },
  from: number,
  to: number,
): number => ((128 * pipe.viscosity * pipe.L * plan) / (Math.PI * g * pipe.D ** 4)) * Math.log(from / to);
