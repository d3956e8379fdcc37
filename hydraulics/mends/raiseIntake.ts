/** An intake set higher, off the bed: what lies under it is what a fault leaves in the pond. */
import { safeIntakeLevel } from "../findings/intakeLow.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";

export const raiseIntake: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const pump = id === undefined ? undefined : section.parts.get(id);
  const pond = pump?.kind === "pump" && pump.in !== undefined ? section.parts.get(pump.in) : undefined;
  if (pump?.kind !== "pump" || pond?.kind !== "pond") return;
  const z = safeIntakeLevel(pond);
  if (z === null || z <= pump.z) return;
  yield {
    label: `Raise the intake of ${called(section, pump.id)} to ${levelWords(z)}`,
    section: withPart(section, { ...pump, z }),
  };
};
