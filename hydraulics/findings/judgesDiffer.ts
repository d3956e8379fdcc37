/** Two judges look at every power cut: the simulation, and a closed form made of levels only. Where they differ, one
 * of them is wrong, and that is said as a failure of the program, not hidden. */
import { judgeByLevels } from "../powerCut/judgeByLevels.ts";
import { levelWords, nameOf } from "../powerCut/words.ts";
import type { Rule } from "./rule.ts";

/** m by which the ends may lie apart; what falls back out of pipes is allowed on top */
const apart = 0.005;

export const judgesDiffer: Rule = ({ section, running, powerCut }) => {
  if (!running.converged || !powerCut || powerCut.failedAt || !powerCut.settled || powerCut.vessels.size === 0)
    return [];
  const judged = judgeByLevels(section, running, powerCut);
  return [...powerCut.vessels].flatMap(([id, cut]) => {
    const by = judged.vessels.get(id);
    if (!by?.applies) return [];
    const off = Math.max(by.finalLevel - cut.finalLevel, cut.finalLevel - by.finalLevel - by.columns);
    if (off <= apart) return [];
    return [
      {
        code: "judges-differ",
        severity: "failure" as const,
        parts: [id],
        text: `The simulation ends ${nameOf(section, id)} at ${levelWords(cut.finalLevel)}, the rule of levels at ${levelWords(by.finalLevel)}: one of them is wrong.`,
        remedy: "Take the lower of the two for true, and send this drawing to those who keep the program.",
        figures: { simulated: cut.finalLevel, byLevels: by.finalLevel },
      },
    ];
  });
};
