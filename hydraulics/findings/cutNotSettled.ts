/** Still moving when the simulation reaches its bound: a slow loss that 48 hours do not end. */
import { timeWords } from "../powerCut/words.ts";
import type { Rule } from "./rule.ts";

export const cutNotSettled: Rule = ({ powerCut }) => {
  if (!powerCut || powerCut.failedAt || powerCut.settled) return [];
  return [
    {
      code: "cut-not-settled",
      severity: "warning",
      parts: [],
      text: `${timeWords(powerCut.duration)} after the power cut water still moves, and the verdicts are those of that moment.`,
      remedy: "Look in the play of the power cut for the body that still falls, and close the way that it takes.",
      figures: { duration: powerCut.duration },
    },
  ];
};
