/** What a start does that the running state does not show: a pump left dry while the vessels fill, and what runs over
 * a rim when the power comes back. */

import { formatTime } from "../document/formatTime.ts";
import type { PartId } from "../document/section.ts";
import type { StartUp } from "../powerCut/startUp.ts";
import { levelWords, litreWords } from "../powerCut/words.ts";
import { atRest } from "../solver/rest.ts";
import type { Finding } from "./finding.ts";
import type { Looked, Rule } from "./rule.ts";
import { called } from "./words.ts";

/** m³; under it a rim is only wetted */
const aFewDrops = 1e-3;

export const pumpDryOnStart: Rule = (looked) => {
  const { section, starts, running } = looked;
  if (!starts || !running.converged || losesWater(looked)) return [];
  const start = starts.startUp;
  if (start.failedAt) return [];
  return [...start.pumpsDry].flatMap(([id, time]): Finding[] => {
    const pump = section.parts.get(id);
    // A pump that is dry, or at its edge, while all is running has a finding of its own.
    if (pump?.kind !== "pump" || pump.in === undefined || running.pumps.get(id)?.state === "dry") return [];
    const pond = start.ponds.get(pump.in);
    if (!pond) return [];
    return [
      {
        code: "pump-dry-on-start",
        severity: "warning",
        parts: [id, pump.in],
        text: `At the first start the empty vessels take ${litreWords(pond.litresLent / 1000)} out of ${called(section, pump.in)}: it falls from ${levelWords(pond.startLevel)} to ${levelWords(pond.lowestLevel)}, and ${called(section, id)} runs dry after ${formatTime(time)}.`,
        remedy: "Fill the vessels beforehand, top the pond up while they fill, or set the intake lower.",
        figures: { time, litresLent: pond.litresLent, lowestLevel: pond.lowestLevel, intake: pump.z },
      },
    ];
  });
};

const losesWater = ({ running }: Looked): boolean =>
  running.converged && [...running.ponds.values()].some(({ lossToGround }) => lossToGround > atRest);

export const overRimOnRestart: Rule = ({ section, starts, running, powerCut }) => {
  const restart = starts?.restart;
  if (!restart || restart.failedAt || !running.converged || !powerCut) return [];
  return [...overRim(restart)].flatMap(([id, volume]): Finding[] => {
    const body = section.parts.get(id);
    if (body?.kind !== "pond" && body?.kind !== "vessel") return [];
    // Said already: it overtops while running, ran over in the cut, or rises for as long as the pumps run.
    const runsOver = running.vessels.get(id)?.overtops === true || (running.ponds.get(id)?.netInflow ?? 0) > atRest;
    if (runsOver || powerCut.ponds.get(id)?.overflows || powerCut.vessels.get(id)?.overtops) return [];
    return [
      {
        code: "over-rim-on-restart",
        severity: "failure",
        parts: [id],
        text: `When the power comes back, ${called(section, id)} runs over its rim at ${levelWords(body.rimLevel)}: ${litreWords(volume)} go over it, though it stays under it while all is running.`,
        remedy:
          body.kind === "pond"
            ? "Run it at a lower water level, raise its rim, or keep the water of the vessels where it is in the cut."
            : "Give it a larger return or more freeboard, or keep the water of the vessels where it is in the cut.",
        figures: { rim: body.rimLevel, overflow: volume },
      },
    ];
  });
};

function* overRim({ ponds, vessels }: StartUp): Generator<readonly [PartId, number]> {
  for (const [id, { overflowVolume }] of [...vessels, ...ponds])
    if (overflowVolume > aFewDrops) yield [id, overflowVolume];
}
