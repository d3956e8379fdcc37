/** A vessel with a higher rim, for one that water from elsewhere runs over when the pumps stop. */
import type { PartId } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";

/** m higher, tried in turn */
const higher = [0.1, 0.2, 0.4, 0.8];

export const tallerVessel: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const vessel = id === undefined ? undefined : section.parts.get(id as PartId);
  if (vessel?.kind !== "vessel") return;
  for (const more of higher) {
    const rimLevel = upToMm(vessel.rimLevel + more);
    yield {
      label: `Build ${called(section, vessel.id)} up to a rim at ${levelWords(rimLevel)}`,
      section: withPart(section, { ...vessel, rimLevel }),
    };
  }
};
