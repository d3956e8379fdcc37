/** Where the friction formulas disagree, and where the one in use was not tested. */

import { siteOf } from "../document/defaults.ts";
import type { PartId } from "../document/section.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, listWords, mmWords, percentWords } from "./words.ts";

/** Of the friction loss: design notes, section 2. */
const apart = 0.15;
/** m; a difference below this moves no level that anybody sees, and is advice */
const matters = 0.01;
/** m; below this there is nothing to compare */
const nothing = 1e-6;

export const formulasDiffer: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  const other = siteOf(section).friction === "hazen-williams" ? "Darcy-Weisbach" : "Hazen-Williams";
  return [...running.pipes].flatMap(([id, { frictionLoss, otherFormulaLoss }]): Finding[] => {
    const difference = otherFormulaLoss - frictionLoss;
    if (frictionLoss <= nothing || Math.abs(difference) <= apart * frictionLoss) return [];
    return [
      {
        code: "formulas-differ",
        severity: Math.abs(difference) >= matters ? "warning" : "advice",
        parts: [id],
        text: `In ${called(section, id)} friction takes ${mmWords(frictionLoss)}, but ${mmWords(otherFormulaLoss)} by ${other}: ${percentWords(Math.abs(difference) / frictionLoss)} ${difference > 0 ? "more" : "less"}.`,
        remedy: `Count on the larger of the two; ${other} can be chosen for the whole drawing.`,
        figures: { frictionLoss, otherFormulaLoss },
      },
    ];
  });
};

/** One finding a reason, with all its pipes: nearly every garden pipe is under 50 mm. */
export const formulaRange: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  const pipesBy = new Map<string, PartId[]>();
  const differ = new Set<PartId>();
  for (const [id, { outsideRange, frictionLoss, otherFormulaLoss }] of running.pipes) {
    for (const reason of outsideRange) pipesBy.set(reason, [...(pipesBy.get(reason) ?? []), id]);
    if (Math.abs(otherFormulaLoss - frictionLoss) > Math.max(apart * frictionLoss, matters)) differ.add(id);
  }
  return [...pipesBy].map(
    ([reason, ids]): Finding => ({
      code: "formula-range",
      severity: ids.some((id) => differ.has(id)) ? "warning" : "advice",
      parts: ids,
      text: `${reason}: ${listWords(section, ids)}.`,
      remedy: "Choose Darcy-Weisbach for the whole drawing, which holds there, or count on the larger of both losses.",
      figures: { pipes: ids.length },
    }),
  );
};
