/** No answer: said with the parts concerned, and no number of the state is shown. */

import { mostThrough } from "../solver/links/link.ts";
import type { Rule } from "./rule.ts";
import { listWords } from "./words.ts";

/** Of the total water, section 11 of the design notes. */
const openBalance = 1e-6;

export const notConverged: Rule = ({ section, running, state, powerCut }) => {
  if (!running.converged) {
    const { parts, largestResidual } = running;
    // What no step goes beyond: a part that stands there would pass more than its bore can.
    const choking = [
      ...new Set(state.network.links.flatMap(({ part, Q, most }) => (Math.abs(Q) >= 0.999 * most ? [part] : []))),
    ].filter((id) => section.parts.get(id)?.kind === "pipe" || section.parts.get(id)?.kind === "pump");
    const where = parts.length > 0 ? ` at ${listWords(section, parts)}` : "";
    return [
      {
        code: "not-converged",
        severity: "failure",
        parts: [...new Set([...parts, ...choking])],
        text: `The running state was not found: its equations do not close${where}, so no figures are shown.`,
        remedy:
          choking.length > 0
            ? `Check the bore of ${listWords(section, choking)}: more than ${mostThrough(1)} m/s would run through it.`
            : "Look at the parts named for a size or level that is off by a power of ten, or take one of them out.",
        figures: Number.isFinite(largestResidual) ? { largestResidual } : {},
      },
    ];
  }
  if (powerCut?.failedAt) {
    const where = powerCut.failedAt.length > 0 ? ` at ${listWords(section, powerCut.failedAt)}` : "";
    return [
      {
        code: "cut-not-converged",
        severity: "failure",
        parts: powerCut.failedAt,
        text: `The power cut could not be followed to its end: a step found no answer${where}, so its verdicts do not count.`,
        remedy: "Look at the parts named for a size or level that is off by a power of ten, or take one of them out.",
        figures: { duration: powerCut.duration },
      },
    ];
  }
  if (powerCut && powerCut.balanceError > openBalance) {
    return [
      {
        code: "cut-loses-count",
        severity: "failure",
        parts: [],
        text: `The power cut does not account for all the water: ${(powerCut.balanceError * 100).toPrecision(2)} % of it is missing or too much.`,
        remedy: "Do not rely on this power cut; report the drawing, for the fault is the program's.",
        figures: { balanceError: powerCut.balanceError },
      },
    ];
  }
  return [];
};
