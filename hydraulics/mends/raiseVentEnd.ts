/** A vent's open end led up: over what stands in it, or clear of the vessel's rim. */
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";
import { endOverRim } from "./ventAtTop.ts";

/** m over what would stand in it */
const clear = 0.05;

export const raiseVentEnd: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const vent = id === undefined ? undefined : section.parts.get(id);
  if (vent?.kind !== "vent") return;
  const { stands, rim } = finding.figures;
  const wanted = stands !== undefined ? stands + clear : rim !== undefined ? rim + endOverRim : null;
  if (wanted === null) return;
  const openEndZ = upToMm(wanted);
  yield {
    label: `Lead the open end of ${called(section, vent.id)} up to ${levelWords(openEndZ)}`,
    section: withPart(section, { ...vent, openEndZ }),
  };
};
