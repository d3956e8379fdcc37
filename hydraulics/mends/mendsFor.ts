/** The mends of a finding: changes that were applied to a copy, written and read back, solved, and seen to remove it.
 *
 * A finding is gone when no finding of its code (nor a lesser degree of it) about the same first part is left. No
 * failure may come that was not there, and nothing graver than what was mended. */
import { type Assessed, solveRunning, withStarts } from "../assess.ts";
import { readSection } from "../document/read.ts";
import type { Section } from "../document/section.ts";
import { writeSection } from "../document/write.ts";
import type { Finding, Mend, Severity } from "../findings/finding.ts";
import { findingsOf } from "../findings/index.ts";
import { simulatePowerCut } from "../powerCut/simulate.ts";
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
  const after = lookedAt(read.value, before, finding);
  return after && { label, sideEffect: sideEffect(before, after), section: read.value };
}

/** The changed drawing, assessed as far as the one before was; null as soon as it shows that the finding stays or that
 * worse comes. A power cut takes five times as long as the running state, and the starts as long again: most of what
 * does not mend is seen in the running state. */
function lookedAt(section: Section, before: Assessed, finding: Finding): Assessed | null {
  const mends = (findings: readonly Finding[]): boolean =>
    isGone(finding, findings) && !comesWorse(finding, before.findings, findings);
  const { running, state } = solveRunning(section, { quick: true });
  if (!running.converged) return null;
  // Without a power cut a finding may weigh more than with it, but a failure is one.
  const atOnce = findingsOf({ section, running, state, powerCut: null, starts: null });
  if (!isGone(finding, atOnce) || failureComes(before.findings, atOnce)) return null;
  const powerCut = simulatePowerCut(section, state);
  if (powerCut.failedAt !== null) return null;
  const findings = findingsOf({ section, running, state, powerCut, starts: null });
  if (!mends(findings)) return null;
  const quick: Assessed = { state, running, powerCut, starts: null, findings, faults: [] };
  if (!before.starts) return quick;
  const started = withStarts(section, quick);
  return mends(started.findings) ? started : null;
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

export const comesWorse = (mended: Finding, before: readonly Finding[], after: readonly Finding[]): boolean =>
  failureComes(before, after) ||
  after.some((now) => weight[now.severity] < weight[mended.severity] && isNew(now, before));

const failureComes = (before: readonly Finding[], after: readonly Finding[]): boolean =>
  after.some((now) => now.severity === "failure" && isNew(now, before));

const isNew = (now: Finding, before: readonly Finding[]): boolean =>
  !before.some((was) => aboutTheSame(was, now) && weight[was.severity] <= weight[now.severity]);
