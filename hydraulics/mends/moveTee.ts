/** A vent's tee moved to the top of its own pipe. */
import { boreWords, called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Remedy } from "./remedy.ts";
import { endOverRim, putVent } from "./ventAtTop.ts";

export const moveTee: Remedy = function* ({ section, finding }) {
  const [id, vesselId] = finding.parts;
  const vent = id === undefined ? undefined : section.parts.get(id);
  const vessel = vesselId === undefined ? undefined : section.parts.get(vesselId);
  const pipe = vent?.kind === "vent" ? section.parts.get(vent.on.pipe) : undefined;
  if (vent?.kind !== "vent" || pipe?.kind !== "pipe" || vessel?.kind !== "vessel") return;
  const put = putVent(section, pipe, vent, vessel.rimLevel + endOverRim);
  const moved = put?.section.parts.get(vent.id);
  if (!put || moved?.kind !== "vent") return;
  const wider = moved.bore > vent.bore ? ` and give it a bore of ${boreWords(moved.bore)}` : "";
  const label = `Move the tee of ${called(section, vent.id)} to ${levelWords(put.level)}, the top of ${called(section, pipe.id)}${wider}`;
  yield { label, section: put.section };
};
