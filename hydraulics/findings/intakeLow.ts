/** A pump whose intake stands so low that a parted line or a stuck flush would leave the fish too little. What any such
 * fault leaves is what lies under the intake: the survey follows each one, this says it from the levels. */
import type { Pond } from "../document/section.ts";
import { levelOfVolume, waterVolume } from "../document/volumes.ts";
import { levelWords, litreWords } from "../powerCut/words.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, percentWords } from "./words.ts";

/** A pond left with less of its water, or shallower (m), puts fish at risk: the survey's bounds too.
 * Common practice, no source. */
export const shareAtRisk = 1 / 3;
export const depthAtRisk = 0.15;
/** m of water over an intake: less draws air in (common practice, no source) */
export const overIntake = 0.1;

/** The lowest level, up to the millimetre, at which an intake leaves the fish enough; null where that is too near the
 * surface, so that no intake can. */
export function safeIntakeLevel(pond: Pond): number | null {
  const third = levelOfVolume(pond, waterVolume(pond, pond.waterLevel) * shareAtRisk);
  const level = Math.ceil(Math.max(third, pond.bedLevel + depthAtRisk) * 1000 - 1e-6) / 1000;
  return level <= pond.waterLevel - overIntake ? level : null;
}

export const intakeLow: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  return [...running.pumps].flatMap(([id, { state }]): Finding[] => {
    const pump = section.parts.get(id);
    const pond = pump?.kind === "pump" && pump.in !== undefined ? section.parts.get(pump.in) : undefined;
    if (pump?.kind !== "pump" || pond?.kind !== "pond" || state === "off" || state === "loose") return [];
    const safe = safeIntakeLevel(pond);
    if (safe === null || pump.z >= safe - 1e-6 || pump.z < pond.bedLevel) return [];
    const left = waterVolume(pond, pump.z);
    const share = left / waterVolume(pond, pond.waterLevel);
    return [
      {
        code: "intake-low",
        severity: "advice",
        parts: [id, pond.id],
        text: `If a line parts while ${called(section, id)} runs, ${called(section, pond.id)} is pumped down to the intake at ${levelWords(pump.z)}: ${litreWords(left)} (${percentWords(share)}) would be left, ${(pump.z - pond.bedLevel).toFixed(2)} m deep.`,
        remedy: `Set the intake at ${levelWords(safe)} or higher: a third of the water and 0.15 m stay for the fish.`,
        figures: { intake: pump.z, safe, left, share },
      },
    ];
  });
};
