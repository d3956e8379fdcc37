/** Total head, and the velocity head and the pressure head in it.
 *     H = h + z + V²/2g        all m · V m/s, the mean over the bore
 * Holds for steady flow, one energy factor (1). Source: Bernoulli; design notes, section 1. */
import { g } from "./gravity.ts";

/** V²/2g, m */
export const velocityHead = (V: number, gravity = g): number => (V * V) / (2 * gravity);

export const totalHead = (pressureHead: number, level: number, V: number, gravity = g): number =>
  pressureHead + level + velocityHead(V, gravity);

export const pressureHead = (head: number, level: number, V: number, gravity = g): number =>
  head - level - velocityHead(V, gravity);
