/** Vents that cannot do what they are there for: too small, too low, or opening too low. */

import type { PartId } from "../document/section.ts";
import type { VentModel } from "../network/network.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Finding } from "./finding.ts";
import { linesOf, ventsOn } from "./linesOf.ts";
import type { Looked, Rule } from "./rule.ts";
import { upToTenth } from "./upToTenth.ts";
import { boreWords, called, percentWords } from "./words.ts";

export const ventSmall: Rule = ({ section, powerCut }) => {
  if (!powerCut || powerCut.failedAt) return [];
  return [...powerCut.vents].flatMap(([id, { rating, airToWater, ampleBore }]): Finding[] => {
    const vent = section.parts.get(id);
    if (vent?.kind !== "vent" || airToWater === null || (rating !== "marginal" && rating !== "tooSmall")) return [];
    const enough = ampleBore === null ? null : upToTenth(ampleBore);
    const takes = `takes in ${percentWords(airToWater)} of the air that it would need to break the siphon`;
    return [
      {
        code: rating === "marginal" ? "vent-marginal" : "vent-too-small",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)}, ${boreWords(vent.bore)} wide, ${takes}: ${rating === "marginal" ? "it may, but is not counted on" : "the line pulls on"}.`,
        remedy:
          enough === null
            ? "Open it further or give it a larger bore."
            : `Give it a bore of ${boreWords(enough)} at this opening, or open it further.`,
        figures: { airToWater, bore: vent.bore, ...(enough === null ? {} : { ampleBore: enough }) },
      },
    ];
  });
};

/** m under the water at which a tee still counts as level with it: a level is known no better.
 * Chosen here, no source. */
const atLevel = 1e-3;

export const ventLow: Rule = (looked) => {
  const { section, running, powerCut } = looked;
  if (!running.converged) return [];
  const found: Finding[] = [];
  for (const { vessel, level, rim, vents } of guarded(looked)) {
    const above = vents.filter(({ teeLevel }) => teeLevel >= level - atLevel);
    if (above.length === 0) {
      const cut = powerCut?.failedAt ? undefined : powerCut?.vessels.get(vessel);
      const heldAnyway = cut?.verdict === "held" && cut.heldBy === "geometry";
      for (const { vent, teeLevel } of vents) {
        const stands = `The tee of ${called(section, vent.id)} stands at ${levelWords(teeLevel)}, under ${called(section, vessel)}'s running water at ${levelWords(level)}`;
        found.push({
          code: "vent-below-water",
          severity: heldAnyway ? "advice" : "warning",
          parts: [vent.id, vessel],
          text: heldAnyway
            ? `${stands}: the vessel is held all the same, but with nothing to spare.`
            : `${stands}: it lets no air in until the water is down to the tee.`,
          remedy: `Move its tee to a point of the line above ${levelWords(level)}.`,
          figures: { teeLevel, level },
        });
      }
    }
    for (const { vent, endLevel } of above) {
      if (endLevel >= rim + overRim - 1e-9) continue;
      found.push({
        code: "vent-below-rim",
        severity: "advice",
        parts: [vent.id, vessel],
        text: `${called(section, vent.id)} opens at ${levelWords(endLevel)}, ${endLevel < rim ? "below" : "less than 150 mm above"} the rim of ${called(section, vessel)} (${levelWords(rim)}): a clogged return may flood it.`,
        remedy: `Lead its open end up to ${levelWords(rim + overRim)}: codes for mains water ask for 150 mm above the rim.`,
        figures: { openEnd: endLevel, rim },
      });
    }
  }
  return found;
};

/** m above the rim; the habit of codes against backflow (ASSE 1001, 6 in), not a law for ponds. */
const overRim = 0.15;

interface Guarded {
  readonly vessel: PartId;
  readonly level: number;
  readonly rim: number;
  readonly vents: readonly VentModel[];
}

/** Vessels whose water stands over the mouth of a full line, line by line, with the vents on it. */
function guarded({ section, running, state }: Looked): readonly Guarded[] {
  if (!running.converged) return [];
  return [...running.vessels].flatMap(([id, { level }]) => {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel") return [];
    return linesOf(state, id)
      .filter(({ opening }) => opening.edge < level)
      .map((line) => ({ vessel: id, level, rim: vessel.rimLevel, vents: ventsOn(state, line) }));
  });
}
