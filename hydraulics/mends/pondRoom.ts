/** Room in a pond for what comes back in a power cut: a lower running level, or a higher rim. */
import type { Pond, Section } from "../document/section.ts";
import { waterArea } from "../document/volumes.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy, Trouble } from "./remedy.ts";
import { downToMm, upToMm } from "./rounding.ts";

/** m under the rim that shall be left */
const spare = 0.025;
const tries = [1, 1.4, 2];

export const lowerPond: Remedy = function* (trouble) {
  const { pond, short } = wanted(trouble) ?? {};
  if (!pond || !short) return;
  for (const times of tries) {
    const waterLevel = downToMm(Math.min(pond.waterLevel, pond.rimLevel) - times * short);
    if (waterLevel <= pond.bedLevel) return;
    yield {
      label: `Run ${called(trouble.section, pond.id)} at a water level of ${levelWords(waterLevel)}`,
      section: withPart(trouble.section, { ...pond, waterLevel }),
    };
  }
};

export const raiseRim: Remedy = function* (trouble) {
  const { pond, short } = wanted(trouble) ?? {};
  if (!pond || !short) return;
  for (const times of tries) {
    const rimLevel = upToMm(Math.max(pond.waterLevel, pond.rimLevel) + times * short);
    yield {
      label: `Raise the rim of ${called(trouble.section, pond.id)} to ${levelWords(rimLevel)}`,
      section: withPart(trouble.section, { ...pond, rimLevel }),
    };
  }
};

/** The pond that runs over or nearly does, and how many metres it is short of. */
function wanted({ section, assessed, finding }: Trouble): { pond: Pond; short: number } | null {
  const pond = pondOf(section, finding.parts[0]);
  if (!pond) return null;
  const cut = assessed.powerCut?.ponds.get(pond.id);
  const over = (cut?.overflowVolume ?? 0) / waterArea(pond, pond.rimLevel);
  const left = cut ? Math.max(0, pond.rimLevel - cut.highestLevel) : 0;
  return { pond, short: spare + over - Math.min(spare, left) };
}

function pondOf(section: Section, id: Pond["id"] | undefined): Pond | null {
  const part = id === undefined ? undefined : section.parts.get(id);
  return part?.kind === "pond" ? part : null;
}
