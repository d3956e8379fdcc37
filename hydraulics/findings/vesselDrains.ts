/** The verdict: vessels that the power cut drains, and those that only a moving part holds. */
import { levelWords } from "../powerCut/words.ts";
import type { Finding } from "./finding.ts";
import { linesOf } from "./linesOf.ts";
import type { Rule } from "./rule.ts";
import { whatHolds } from "./whatHolds.ts";
import { called } from "./words.ts";

export const vesselDrains: Rule = (looked) => {
  const { section, powerCut } = looked;
  if (!powerCut || powerCut.failedAt) return [];
  const found: Finding[] = [];
  for (const [id, vessel] of powerCut.vessels) {
    const { startLevel, finalLevel, restingLevel } = vessel;
    const figures = { startLevel, finalLevel, restingLevel, litresOut: vessel.litresOut };
    if (vessel.verdict === "drains") {
      found.push({
        code: "vessel-drains",
        severity: "failure",
        parts: [id],
        text: vessel.reason,
        remedy: whatHolds(looked, id, vessel),
        figures,
      });
    } else if (vessel.heldBy === "movingPart") {
      // The valve may sit on another pipe of the line, before a tee.
      const groups = new Set(linesOf(looked.state, id).map(({ pipe }) => pipe.group));
      const flaps = [...looked.state.network.pipes.values()]
        .filter(({ group }) => groups.has(group))
        .flatMap(({ checks }) => checks.map(({ valve }) => valve.id));
      found.push({
        code: "held-by-moving-part",
        severity: "warning",
        parts: [id, ...flaps],
        text: vessel.reason,
        remedy: `Do not rely on it alone: end the supply above ${called(section, id)}'s water, or carry it over a point higher than ${levelWords(startLevel)} with a vent there.`,
        figures,
      });
    }
  }
  return found;
};
