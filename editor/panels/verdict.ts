/** The title block's verdict for the tag beside the hand and for screen readers: the same words, from the same place. */
import type { Assessment, FaultResult, Running, Section } from "../../hydraulics/index.ts";
import { type SheetVerdict, verdictOf as verdictOfSheet } from "../scene/verdict.ts";
import { formatFlow, type UnitSystem } from "../sheet/units.ts";
import { inOrder } from "../state/inOrder.ts";

export function verdictOf(
  section: Section,
  assessment: Assessment | null,
  system: UnitSystem,
  fault: FaultResult | null = null,
): SheetVerdict | null {
  if (!assessment) return null;
  const { running, powerCut, findings } = assessment;
  return verdictOfSheet({ section, parts: inOrder(section), findings, system, fault, input: { running, powerCut } });
}

/** What the pumps deliver together. */
export function deliveredOf(running: Running | null, system: UnitSystem): string {
  if (!running?.converged || running.pumps.size === 0) return "";
  let flow = 0;
  for (const pump of running.pumps.values()) flow += pump.flow;
  return formatFlow(flow, system);
}

/** @param fault whose moment is shown */
export function spoken(
  section: Section,
  assessment: Assessment | null,
  system: UnitSystem,
  fault: FaultResult | null = null,
): string {
  const verdict = verdictOf(section, assessment, system, fault);
  if (!assessment || !verdict || section.parts.size === 0) return "";
  if (fault) return `${verdict.words}. ${verdict.reason}`;
  if (!assessment.running.converged) return `${verdict.words}. ${verdict.reason}`;
  const delivered = deliveredOf(assessment.running, system);
  const failures = assessment.findings.filter((finding) => finding.severity === "failure").length;
  const looks = assessment.findings.length;
  return [
    verdict.words,
    delivered && `delivers ${delivered}`,
    looks > 0
      ? `${looks} to look at${failures > 0 ? `, ${failures} of them ${failures === 1 ? "fails" : "fail"}` : ""}`
      : "nothing to look at",
  ]
    .filter(Boolean)
    .join("; ");
}
