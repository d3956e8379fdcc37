/** What the power cut sends over a rim, and ponds that come close to it. */

import { levelWords, litreWords } from "../powerCut/words.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, mmWords } from "./words.ts";

/** m under the rim from which a pond counts as nearly over. Common practice, no source: waves, rain. */
const nearRim = 0.02;

/** m³; what the emptied legs of a line drop into a brim-full vessel is no second failure */
const aFewDrops = 1e-3;

export const overflowsInCut: Rule = ({ section, running, powerCut }) => {
  if (!powerCut || powerCut.failedAt) return [];
  const ponds = [...powerCut.ponds].flatMap(([id, pond]): Finding[] => {
    const part = section.parts.get(id);
    if (part?.kind !== "pond" || pond.startLevel > part.rimLevel) return [];
    const left = part.rimLevel - pond.highestLevel;
    const rise = pond.highestLevel - pond.startLevel;
    if (pond.overflows) {
      return [
        {
          code: "pond-over-rim-in-cut",
          severity: "failure",
          parts: [id],
          text: `When the pumps stop, what comes back lifts ${called(section, id)} from ${levelWords(pond.startLevel)} over its rim at ${levelWords(part.rimLevel)}: ${litreWords(pond.overflowVolume)} are lost.`,
          remedy:
            "Run it at a lower water level, raise its rim, or let less water come back: higher returns, smaller sheets over sills.",
          figures: { startLevel: pond.startLevel, rim: part.rimLevel, overflow: pond.overflowVolume },
        },
      ];
    }
    if (left >= nearRim || rise <= 0.001) return [];
    return [
      {
        code: "pond-overflow-near",
        severity: "warning",
        parts: [id],
        text: `When the pumps stop, ${called(section, id)} rises by ${mmWords(rise)} to ${levelWords(pond.highestLevel)}, and only ${mmWords(Math.max(0, left))} are left under its rim.`,
        remedy: "Run it at a lower water level or raise its rim: rain may come at the same time.",
        figures: { highestLevel: pond.highestLevel, rim: part.rimLevel, left },
      },
    ];
  });
  const vessels = [...powerCut.vessels].flatMap(([id, vessel]): Finding[] => {
    const already = running.converged && running.vessels.get(id)?.overtops === true;
    if (!vessel.overtops || (already && powerCut.lostToGround < aFewDrops)) return [];
    return [
      {
        code: "overtops-in-cut",
        severity: "failure",
        parts: [id],
        text:
          vessel.startLevel >= vessel.highestLevel - 1e-6
            ? `${called(section, id)} goes on running over its rim (${levelWords(vessel.startLevel)}) when the pumps stop; in all ${litreWords(powerCut.lostToGround)} are lost to the ground then.`
            : `When the pumps stop, water from elsewhere lifts ${called(section, id)} from ${levelWords(vessel.startLevel)} over its rim at ${levelWords(vessel.highestLevel)}.`,
        remedy:
          "Give it a larger return, or keep the water of the higher body where it is: a vent or an end above the water there.",
        figures: {
          startLevel: vessel.startLevel,
          highestLevel: vessel.highestLevel,
          lostToGround: powerCut.lostToGround,
        },
      },
    ];
  });
  return [...ponds, ...vessels];
};
