/** A hand valve part open.
 *     hm = K·V²/2g        hm m · V m/s on the bore D m of the pipe · K dimensionless
 *     ln K linear in the fraction open between the table's rows
 *     ball 1, 2/3, 1/3: K 0.05, 5.5, 210 · gate 1, 3/4, 1/2, 1/4: K 0.2, 1.0, 5.0, 25
 * Holds for the full bore of the pipe; below the last row the first slope is carried on, at 0 the valve is shut.
 * Source: design notes, section 3; two public tables in published/minorLoss.test.ts show how far tables differ.
 * Needs open > 0: the network builder cuts at a shut valve. */
import type { Element } from "./element.ts";
import { minorLoss } from "./minorLoss.ts";

export type ValveType = "ball" | "gate";

/** Rows from nearly shut to open: [fraction open, K]. */
const rows: Record<ValveType, readonly (readonly [open: number, K: number])[]> = {
  ball: [
    [1 / 3, 210],
    [2 / 3, 5.5],
    [1, 0.05],
  ],
  gate: [
    [1 / 4, 25],
    [1 / 2, 5],
    [3 / 4, 1],
    [1, 0.2],
  ],
};

/** K of a hand valve, Infinity at 0. */
export function valveK(type: ValveType, open: number): number {
  if (open <= 0) return Infinity;
  const table = rows[type];
  const fraction = Math.min(open, 1);
  let row = 1;
  while (row < table.length - 1 && fraction > table[row]![0]) row++;
  const [openA, KA] = table[row - 1]!;
  const [openB, KB] = table[row]!;
  if (fraction === openA) return KA;
  if (fraction === openB) return KB;
  return KA * (KB / KA) ** ((fraction - openA) / (openB - openA));
}

export const valve: Element<{ type: ValveType; open: number; D: number }> = {
  source: {
    title: "Loss coefficients of hand valves",
    where: "design notes, section 3",
    checkedIn: "published/minorLoss.test.ts",
  },
  build: ({ type, open, D }) => minorLoss.build({ K: valveK(type, open), D }),
};
