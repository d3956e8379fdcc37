/** Power that a pump gives to the water.
 *     P = ρ·g·Q·H        P W · ρ kg/m³ · Q m³/s · H m
 * Holds always. Source: the definition; published/pump.test.ts. */
import { g } from "./gravity.ts";

export const hydraulicPower = (Q: number, head: number, density: number): number => density * g * Q * head;

/** Share of the drawn watts that reaches the water; null without watts. */
export const wireToWater = (hydraulic: number, watts: number | undefined): number | null =>
  watts !== undefined && watts > 0 ? hydraulic / watts : null;

/** Affinity: a pump at n times its speed gives n times the flow, n² times the head, n³ times the power.
 * Holds for small changes of speed at an unchanged efficiency. Source: published/pump.test.ts. */
export const flowAtSpeed = (flow: number, n: number): number => flow * n;
export const headAtSpeed = (head: number, n: number): number => head * n * n;
export const powerAtSpeed = (power: number, n: number): number => power * n ** 3;
/** The speed, as a share, at which a head becomes another. */
export const speedForHead = (from: number, to: number): number => Math.sqrt(to / from);
