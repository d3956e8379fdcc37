/** Still moving when the simulation reaches its bound: a slow loss that 48 hours do not end. */

import { formatTime } from "../document/formatTime.ts";
import type { PartId } from "../document/section.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { listWords } from "./words.ts";

export const cutNotSettled: Rule = ({ section, powerCut }) => {
  if (!powerCut || powerCut.failedAt || powerCut.settled) return [];
  const parts = moving(powerCut);
  const who = parts.length > 0 ? `the water of ${listWords(section, parts)}` : "water";
  const finding: Finding = {
    code: "cut-not-settled",
    severity: "warning",
    parts,
    text: `${formatTime(powerCut.duration)} after the power cut ${who} still moves, and the verdicts are those of that moment.`,
    remedy: "Follow the power cut to its end on the drawing, and close the way that the water takes.",
    figures: { duration: powerCut.duration },
  };
  return [finding];
};

/** s over which the end is looked at, and the m an hour that count as movement (design notes, section 8) */
const lately = 3600;
const settled = 1e-4;

function moving({ duration, history: { times, levels } }: PowerCut): readonly PartId[] {
  const before = Math.max(
    0,
    times.findLastIndex((time) => time <= duration - lately),
  );
  const hours = (duration - (times[before] ?? 0)) / 3600;
  return [...levels].flatMap(([id, series]) => {
    const change = Math.abs((series.at(-1) ?? 0) - (series[before] ?? 0));
    return change > settled * hours ? [id] : [];
  });
}
