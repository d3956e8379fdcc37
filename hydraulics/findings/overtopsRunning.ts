/** Water over a rim while the pumps run. */

import { overflowOf } from "../document/defaults.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, flowWords } from "./words.ts";

export const overtopsRunning: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  return [...running.vessels]
    .filter(([, reading]) => reading.overtops)
    .map(([id, reading]): Finding => {
      const part = section.parts.get(id);
      const to = part?.kind === "vessel" ? overflowOf(part) : "ground";
      const rim = part?.kind === "vessel" ? part.rimLevel : reading.level;
      return {
        code: "overtops-running",
        severity: "failure",
        parts: [id],
        text: `${called(section, id)} runs over its rim (${levelWords(rim)}): ${flowWords(reading.inflow)} enter, and ${flowWords(reading.overflow)} of it go ${to === "ground" ? "onto the ground" : `into ${called(section, to)}`}.`,
        remedy: "Give it a larger return or a second one, set the return lower, or throttle the supply.",
        figures: { rim, inflow: reading.inflow, overflow: reading.overflow, returnCapacity: reading.returnCapacity },
      };
    });
};
