/** An open check valve, flow forward.
 *     h = hopen + K·V²/2g        h, hopen, m · V m/s on the bore D
 * Holds for Q ≥ 0. Shut or open is a status that the solver settles: it keeps no answer with Q < 0 through a
 * sound valve, though a step may try one, so the curve goes on below 0 the odd way. A valve stuck open has hopen 0.
 * Source: design notes, section 3 (K 2.0, a swing flap); the opening head of a spring is the maker's.
 * Needs D > 0, K > 0, hopen ≥ 0. */
import type { Element } from "./element.ts";
import { minorLoss } from "./minorLoss.ts";

export const checkValve: Element<{ K: number; D: number; openingHead?: number }> = {
  source: {
    title: "Loss coefficient on the velocity head, with an opening head",
    where: "design notes, section 3",
    checkedIn: "published/minorLoss.test.ts",
  },
  build({ K, D, openingHead = 0 }) {
    const open = minorLoss.build({ K, D });
    if (openingHead === 0) return open;
    return {
      loss: (Q) => openingHead + open.loss(Q),
      slope: open.slope,
      content: (Q) => openingHead * Q + open.content(Q),
    };
  },
};
