/** Loss in a fitting, on the bore of the pipe that bears it.
 *     hm = K·V²/2g,  V = Q/(πD²/4)        hm, D m · Q m³/s · K dimensionless
 * Holds for turbulent flow; in laminar flow K rises as Re falls and no table says how.
 * Source: the usual form; worked examples in published/minorLoss.test.ts.
 * Ours: the sign follows the flow; a chord next to rest (squareLaw.ts).
 * Needs D > 0 and a finite K ≥ 0: a shut valve is cut out by the network builder, K 0 joins its ends. */
import { boreArea } from "../formulas/circle.ts";
import { g } from "../formulas/gravity.ts";
import { must } from "../must.ts";
import type { Element } from "./element.ts";
import { squareLaw } from "./squareLaw.ts";

export const minorLoss: Element<{ K: number; D: number }> = {
  source: {
    title: "Loss coefficient on the velocity head",
    where: "design notes, section 3",
    checkedIn: "published/minorLoss.test.ts",
  },
  build({ K, D }) {
    must(K >= 0 && K < Infinity && D > 0, "a fitting has a finite K of 0 or more and a bore");
    return squareLaw(K / (2 * g * boreArea(D) ** 2));
  },
};
