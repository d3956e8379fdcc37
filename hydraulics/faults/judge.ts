/** What a fault comes to, in one word and one sentence.
 *
 * Common practice, no source:
 *   fish at risk   a pond is left with under a third of its water,
 * or under 0.15 m deep (and lost a tenth of                  it or more)
 *   water lost     more than 20 L, or more than 1 % of the ponds' water, goes to the ground (rain that only passes
 *                  through does not count)
 *   nuisance       a vessel drains or runs over its rim, a pond runs over, a pump runs dry or brings less than a
 *                  quarter of its flow, more than a litre goes to the ground
 *   harmless       nothing of that */

import { formatTime } from "../document/formatTime.ts";
import type { PartId, Section } from "../document/section.ts";
import { waterVolume } from "../document/volumes.ts";
import { depthAtRisk, shareAtRisk } from "../findings/intakeLow.ts";
import { levelWords, litreWords, nameOf } from "../powerCut/words.ts";
import { partsOf } from "./changed.ts";
import type { Outcome } from "./fault.ts";
import type { Followed } from "./follow.ts";
import type { PondLeft } from "./pondsLeft.ts";

/** a pond that is drawn shallow is not put at risk by a fault that hardly touches it */
const shareUntouched = 0.9;
const lostFrom = 0.02;
const lostShareFrom = 0.01;
const wordFrom = 0.001;

export interface Judged {
  readonly outcome: Outcome;
  readonly reason: string;
}

export function judge(section: Section, followed: Followed, ponds: readonly PondLeft[], brings: number): Judged {
  const judged = judgeEnd(section, followed, ponds, brings);
  if (followed.failedAt === null) return judged;
  const at = followed.failedAt.map((id) => nameOf(section, id)).join(", ");
  // Not known is not harmless.
  const outcome = judged.outcome === "harmless" ? "nuisance" : judged.outcome;
  return {
    outcome,
    reason: `The simulation did not converge at ${at} and was not followed further than ${formatTime(followed.duration)}.`,
  };
}

function judgeEnd(section: Section, followed: Followed, ponds: readonly PondLeft[], brings: number): Judged {
  const lost = Math.max(0, followed.lostToGround - brings);
  const atRisk = ponds.find(isAtRisk);
  if (atRisk)
    return { outcome: "fish at risk", reason: `${left(section, atRisk)}${whatStops(section, followed, atRisk)}.` };
  const all = partsOf(section, "pond").reduce((sum, pond) => sum + waterVolume(pond, pond.waterLevel), 0);
  if (lost > lostFrom || (all > 0 && lost > lostShareFrom * all)) {
    const worst = ponds[0];
    const stays = worst ? `; ${left(section, worst)}${whatStops(section, followed, worst)}` : "";
    const gone = litreWords(followed.lostToGround);
    const rain = brings > 0 ? `, after ${litreWords(brings)} of rain came in` : "";
    return { outcome: "water lost", reason: `${gone} go to the ground${way(section, followed)}${rain}${stays}.` };
  }
  const nuisance = nuisanceOf(section, followed, lost);
  if (nuisance) return { outcome: "nuisance", reason: `${nuisance}.` };
  const worst = ponds[0];
  const pond = worst ? `, and ${nameOf(section, worst.pond.id)} keeps ${percent(worst.share)} of its water` : "";
  return { outcome: "harmless", reason: `No vessel drains or runs over${pond}.` };
}

const isAtRisk = ({ share, depth }: PondLeft): boolean =>
  share < shareAtRisk || (depth < depthAtRisk && share < shareUntouched);

const percent = (share: number): string => `${Math.round(100 * share)} %`;

const left = (section: Section, { pond, volume, share, depth, level }: PondLeft): string =>
  `${nameOf(section, pond.id)} is left with ${litreWords(volume)} (${percent(share)}), ${depth.toFixed(2)} m deep, at ${levelWords(level)}`;

function whatStops(section: Section, { pumpsDry }: Followed, { pond }: PondLeft): string {
  for (const id of pumpsDry.keys()) {
    const pump = section.parts.get(id);
    if (pump?.kind === "pump" && pump.in === pond.id) return `, where the intake of ${nameOf(section, id)} runs dry`;
  }
  return "";
}

function way(section: Section, { overRim }: Followed): string {
  const names = [...overRim.keys()].map((id) => nameOf(section, id));
  return names.length > 0 ? ` over the rim of ${names.join(" and ")}` : "";
}

function nuisanceOf(section: Section, followed: Followed, lost: number): string | null {
  const names = (ids: Iterable<PartId>) => [...ids].map((id) => nameOf(section, id)).join(" and ");
  const { drained, overRim, pumpsDry, stopped } = followed;
  const [first] = drained;
  if (first !== undefined) {
    const { finalLevels } = followed;
    return `${nameOf(section, first)} drains to ${levelWords(finalLevels.get(first) ?? 0)}; its water is not lost`;
  }
  if (overRim.size > 0) return `${names(overRim.keys())} runs over its rim`;
  if (pumpsDry.size > 0) return `${names(pumpsDry.keys())} runs dry`;
  if (stopped.length > 0) return `${names(stopped)} brings less than a quarter of its drawn flow`;
  return lost > wordFrom ? `${litreWords(lost)} go to the ground` : null;
}
