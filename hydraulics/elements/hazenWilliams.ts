/** Hazen-Williams friction of a pipe that runs full.
 *     hf = 10.67 · L · Q^1.852 / (C^1.852 · D^4.8704)        hf, L, D m · Q m³/s · C dimensionless
 * Holds for turbulent water near 15 °C, D ≥ 0.05 m, V ≤ 3 m/s (formulas/range.ts reports the rest).
 * Source: the usual SI form; published tables in published/hazenWilliams.test.ts.
 * Ours: the sign follows the flow; a chord replaces the curve next to rest.
 * Needs L, D, C > 0: the network builder joins the ends of a pipe without length. */
import type { Element } from "./element.ts";

const n = 1.852;

export const hazenWilliams: Element<{ L: number; D: number; C: number }> = {
  source: {
    title: "Hazen-Williams equation, SI form",
    where: "design notes, section 2",
    checkedIn: "published/hazenWilliams.test.ts",
  },
  build({ L, D, C }) {
    const r = (10.67 * L) / (C ** n * D ** 4.8704);
    // Q^1.852 is flat at rest and would leave the matrix singular. Below the flow that loses 1 nm of
    // head, a thousandth of the solver's tolerance, the curve gives way to its chord.
    const knee = (1e-9 / r) ** (1 / n);
    // As exp(x·ln Q) it takes half the time of a power and differs in the last digit or two: Newton's loop lives on it.
    const perFlow = (Q: number) => r * Math.exp((n - 1) * Math.log(Math.max(Math.abs(Q), knee)));
    const belowKnee = (0.5 - 1 / (n + 1)) * r * knee ** (n + 1);
    return {
      loss: (Q) => perFlow(Q) * Q,
      slope: (Q) => (Math.abs(Q) > knee ? n : 1) * perFlow(Q),
      content: (Q) => (Math.abs(Q) > knee ? (perFlow(Q) * Q * Q) / (n + 1) + belowKnee : (perFlow(Q) * Q * Q) / 2),
      linear: (Q, into) => {
        const each = perFlow(Q);
        into.loss = each * Q;
        into.slope = (Math.abs(Q) > knee ? n : 1) * each;
      },
      numbers: { shape: "power", r, power: n - 1, knee },
    };
  },
};
