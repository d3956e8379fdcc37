/** Whether air travels up a gravity pipe, stands in it or is swept out.
 *     Fr = V/√(g·D),  V = Q/(πD²/4) of the full bore        V m/s · D m
 * Holds for a pipe that drops. Under about 0.3 it vents itself; from 0.3 to 1 it gulps and surges; over 1 (2 in some
 * sources) it clears itself.
 * Source: P. D. Hills, Designing piping for gravity flow, Chem. Eng. (1983), as quoted; published/air.test.ts.
 * Some pages write V²/(gD): with the same 0.3 another bore comes out. This one is V/√(gD). */
import { boreArea } from "./circle.ts";
import { g } from "./gravity.ts";

export const selfVentingLimit = 0.3;
export const clearingLimit = 1;

export type AirInReturn = "ventsItself" | "gulps" | "clearsItself";

export const froudeFull = (Q: number, D: number): number => Math.abs(Q) / (boreArea(D) * Math.sqrt(g * D));

export function airInReturn(froude: number): AirInReturn {
  if (froude < selfVentingLimit) return "ventsItself";
  return froude > clearingLimit ? "clearsItself" : "gulps";
}

/** m³/s up to which a bore vents itself. */
export const selfVentingFlow = (D: number): number => selfVentingLimit * boreArea(D) * Math.sqrt(g * D);
