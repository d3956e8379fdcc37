/** A dry pump set lower: into its water, but off the bed, so that a fault leaves the fish some. */
import { bottomOf } from "../document/geometry.ts";
import type { Body } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";
import { downToMm } from "./rounding.ts";

/** of the water's depth over the bed, tried in turn */
const shares = [0.5, 0.35, 0.2];

export const lowerIntake: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const pump = id === undefined ? undefined : section.parts.get(id);
  const body =
    pump?.kind === "pump" && pump.in !== undefined ? (section.parts.get(pump.in) as Body | undefined) : undefined;
  if (pump?.kind !== "pump" || body?.kind !== "pond") return;
  const bed = bottomOf(body);
  for (const share of shares) {
    const z = downToMm(bed + share * (body.waterLevel - bed));
    if (z < pump.z)
      yield {
        label: `Set the intake of ${called(section, pump.id)} to ${levelWords(z)}`,
        section: withPart(section, { ...pump, z }),
      };
  }
};
