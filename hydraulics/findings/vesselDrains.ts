/** The verdict: vessels that the power cut drains, and those that only a moving part holds. */
import type { PartId } from "../document/section.ts";
import { bottomDraws } from "../powerCut/bottomDraw.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Finding } from "./finding.ts";
import { linesOf } from "./linesOf.ts";
import type { Looked, Rule } from "./rule.ts";
import { boreWords, called } from "./words.ts";

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
        remedy: whatHolds(looked, id, startLevel),
        figures,
      });
    } else if (vessel.heldBy === "movingPart") {
      const flaps = linesOf(looked.state, id).flatMap(({ pipe }) => pipe.checks.map(({ valve }) => valve.id));
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

/** What would hold it, from the line that lets it go. */
function whatHolds({ section, state, powerCut }: Looked, id: PartId, startLevel: number): string {
  const draw = bottomDraws(state).find(({ body }) => body === id);
  if (draw)
    return `Draw ${called(section, draw.pipe)} from the water's surface, or put an ample vent at its crest (${levelWords(draw.crestLevel)}).`;
  const lines = linesOf(state, id);
  const level = levelWords(startLevel);
  for (const { pipe } of lines) {
    for (const vent of state.network.vents.values()) {
      const rated = powerCut?.vents.get(vent.vent.id);
      if (vent.pipe !== pipe.pipe.id || !rated) continue;
      const name = called(section, vent.vent.id);
      if (vent.teeLevel < startLevel)
        return `Move the tee of ${name} to a point of the line above the running water level of ${level}.`;
      if (rated.ampleBore !== null && rated.rating !== "ample")
        return `Give ${name} a bore of at least ${boreWords(upToTenth(rated.ampleBore))}, opened as it is now, or open it further.`;
    }
  }
  const over = lines.find(({ crest }) => crest > startLevel);
  if (over)
    return `Put an ample vent on ${called(section, over.pipe.pipe.id)} at a point above ${level}, or end it above the water.`;
  if (lines.length > 0)
    return `Carry the supply over a point higher than ${level} with an ample vent there, or end it above the water; a check valve helps as long as it seals.`;
  return "Close the way by which the water leaves below the outlet, or end it higher than the outlet.";
}

/** m, up to the next tenth of a millimetre: rounded down it would not be ample. */
const upToTenth = (bore: number): number => Math.ceil(bore * 1e4 - 1e-9) / 1e4;
