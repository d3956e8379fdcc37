/** The mends of a finding: changes that were applied to a copy, written and read back, solved, and seen to remove it.
 *
 * A finding is gone when no finding of its code (nor a lesser degree of it) about the same first part is left. No failure may come that was not
 * there, and nothing graver than what was mended. */
import { type Assessed, assess, withStarts } from "../assess.ts";
import { readSection } from "../document/read.ts";
import type { Section } from "../document/section.ts";
import { writeSection } from "../document/write.ts";
import type { Finding, Mend, Severity } from "../findings/finding.ts";
import { remedies } from "./remedies.ts";
import type { Candidate } from "./remedy.ts";
import { sideEffect } from "./sideEffect.ts";

/** One a remedy: the first of its candidates that mends. */
export function mendsFor(section: Section, assessed: Assessed, finding: Finding): readonly Mend[] {
  if (!assessed.running.converged) return [];
  const mends: Mend[] = [];
  for (const remedy of remedies.get(finding.code) ?? []) {
    for (const candidate of remedy({ section, assessed, finding })) {
      const mend = tried(candidate, assessed, finding);
      if (!mend) continue;
      mends.push(mend);
      break;
    }
  }
  return mends;
}

function tried({ label, section }: Candidate, before: Assessed, finding: Finding): Mend | null {
  // What the editor will save is what has to hold.
  const read = readSection(writeSection(section));
  if (!read.ok) return null;
  const isMended = (after: Assessed): boolean =>
    after.running.converged &&
    after.powerCut !== null &&
    after.powerCut.failedAt === null &&
    isGone(finding, after.findings) &&
    !comesWorse(finding, before.findings, after.findings);
  // Start-up and restart take as long again as the cut: only what has passed so far is started.
  const after = assess(read.value, { quick: true });
  if (!isMended(after)) return null;
  const started = before.starts ? withStarts(read.value, after) : after;
  return isMended(started) ? { label, sideEffect: sideEffect(before, started), section: read.value } : null;
}

/** Codes that say one thing by degrees: to come down from one to the other is no mend. */
const degrees: readonly (readonly string[])[] = [
  ["vessel-drains", "held-by-moving-part"],
  ["vent-too-small", "vent-marginal"],
  ["pond-over-rim-in-cut", "pond-overflow-near"],
];
const kindOf = (code: string): string => degrees.find((codes) => codes.includes(code))?.[0] ?? code;

const aboutTheSame = (a: Finding, b: Finding): boolean => a.code === b.code && a.parts[0] === b.parts[0];

export const isGone = (finding: Finding, after: readonly Finding[]): boolean =>
  !after.some((left) => kindOf(left.code) === kindOf(finding.code) && left.parts[0] === finding.parts[0]);

const weight: Record<Severity, number> = { failure: 0, warning: 1, advice: 2 };

export function comesWorse(mended: Finding, before: readonly Finding[], after: readonly Finding[]): boolean {
  return after.some(
    (now) =>
      (now.severity === "failure" || weight[now.severity] < weight[mended.severity]) &&
      !before.some((was) => aboutTheSame(was, now) && weight[was.severity] <= weight[now.severity]),
  );
}
