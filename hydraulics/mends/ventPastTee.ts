/** A vent at the top of a branch: past the vent that its line has,
 * two vessels on one supply are a siphon of their own. */
import { pipeLine } from "../document/geometry.ts";
import { linesOf } from "../findings/linesOf.ts";
import { boreWords, called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Remedy } from "./remedy.ts";
import { topOf } from "./tops.ts";
import { endOverRim, overWater, putVent } from "./ventAtTop.ts";

export const ventPastTee: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const vessel = id === undefined ? undefined : section.parts.get(id);
  if (vessel?.kind !== "vessel") return;
  const level = assessed.powerCut?.vessels.get(vessel.id)?.startLevel ?? vessel.rimLevel;
  const { pipes, vents } = assessed.state.network;
  const groups = new Set(linesOf(assessed.state, vessel.id).map(({ pipe }) => pipe.group));
  for (const model of pipes.values()) {
    const pipe = section.parts.get(model.pipe.id);
    if (pipe?.kind !== "pipe" || model.runs !== "full" || !groups.has(model.group)) continue;
    if ([...vents.values()].some((vent) => vent.pipe === pipe.id)) continue;
    if (topOf(pipeLine(section, pipe)).level < level + overWater) continue;
    const put = putVent(section, pipe, undefined, vessel.rimLevel + endOverRim);
    const vent = put?.section.parts.get(put.vent);
    if (!put || vent?.kind !== "vent") continue;
    yield {
      label: `Put a vent of ${boreWords(vent.bore)} on ${called(section, pipe.id)} at its top, ${levelWords(put.level)}`,
      section: put.section,
    };
  }
};
