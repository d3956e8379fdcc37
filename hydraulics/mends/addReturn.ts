/** A return drawn from a vessel that has none to the nearest pond under it: the smallest pipe as sold that is larger
 * than the supply and raises no other warning. */
import { drawnWidth, pipeLine } from "../document/geometry.ts";
import type { Part, Pipe, Pond, Section, Vessel } from "../document/section.ts";
import { bedTop } from "../document/volumes.ts";
import { linesOf } from "../findings/linesOf.ts";
import { boreWords, called } from "../findings/words.ts";
import { seriesOf } from "../formulas/sizes.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import { freshId, lastRank } from "./freshPart.ts";
import type { Remedy } from "./remedy.ts";
import { downToMm, upToMm } from "./rounding.ts";

/** m of the mouth's crown under the rim, and fall of the run (2 % is usual) */
const underRim = 0.1;
const slope = 0.02;
/** m inside the pond's wall, and over its water or rim */
const inside = 0.3;
const overWater = 0.03;

export const addReturn: Remedy = function* ({ section, assessed, finding }) {
  for (const id of finding.parts) {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel" || [...section.parts.values()].some((part) => leadsOut(section, part, vessel)))
      continue;
    const pond = nearestPond(section, vessel);
    if (!pond) continue;
    const supply = Math.max(0, ...linesOf(assessed.state, id).map(({ pipe }) => pipe.pipe.bore));
    for (const size of seriesOf("pvc")[0]?.sizes ?? []) {
      if (size.bore <= supply) continue;
      const pipe = drawn(section, vessel, pond, size.bore, size.name);
      if (!pipe) continue;
      yield {
        label: `Draw a return of ${boreWords(size.bore)} from ${called(section, id)} at ${levelWords(mouthOf(vessel, size.bore))} to ${called(section, pond.id)}`,
        section: withPart(section, pipe),
      };
    }
  }
};

/** A sill, or a pipe drawn from the upper half of the vessel's stone or over it. */
function leadsOut(section: Section, part: Part, vessel: Vessel): boolean {
  if (part.kind === "spillway") return part.from === vessel.id;
  if (part.kind !== "pipe" || !("part" in part.from) || part.from.part !== vessel.id) return false;
  const mouth = pipeLine(section, part)[0]?.[1] ?? vessel.baseLevel;
  return mouth > (bedTop(vessel) + vessel.baseLevel) / 2;
}

const mouthOf = (vessel: Vessel, bore: number): number => downToMm(vessel.rimLevel - underRim - bore / 2);

function nearestPond(section: Section, vessel: Vessel): Pond | null {
  const middle = vessel.x + drawnWidth(vessel) / 2;
  const away = (pond: Pond): number => Math.abs(pond.x + pond.width / 2 - middle);
  const ponds = [...section.parts.values()].filter(
    (part): part is Pond => part.kind === "pond" && part.rimLevel < vessel.rimLevel - underRim,
  );
  return ponds.sort((a, b) => away(a) - away(b))[0] ?? null;
}

function drawn(section: Section, vessel: Vessel, pond: Pond, bore: number, nominal: string): Pipe | null {
  const z = mouthOf(vessel, bore);
  const pondRight = pond.x + pond.width / 2 < vessel.x + drawnWidth(vessel) / 2;
  const x = Number(
    (pondRight
      ? pond.x + pond.width - Math.min(inside, pond.width / 2)
      : pond.x + Math.min(inside, pond.width / 2)
    ).toFixed(3),
  );
  const wall = pondRight ? vessel.x : vessel.x + drawnWidth(vessel);
  const corner = downToMm(z - slope * Math.abs(wall - x));
  const end = upToMm(pond.waterLevel + overWater);
  if (z - bore / 2 <= vessel.baseLevel || corner - bore <= end) return null;
  return {
    kind: "pipe",
    id: freshId(section, "return"),
    rank: lastRank(section),
    from: { part: vessel.id, z, mouth: "side" },
    to: { part: pond.id, x, z: end, mouth: "down" },
    route: [[x, corner]],
    bore,
    nominal,
    material: "pvc",
  };
}
