/** The drawing's verdict in the sheet's own words, for the tag beside the hand and for screen readers. */
import type { Assessment, Running, Section } from "../../hydraulics/index.ts";
import { formatFlow, formatLevel, type UnitSystem } from "../sheet/units.ts";

export interface VerdictWords {
  readonly words: string;
  readonly tone: "held" | "part" | "drains" | "soft";
}

export function verdictOf(assessment: Assessment | null, system: UnitSystem): VerdictWords {
  const vessels = [...(assessment?.powerCut?.vessels.values() ?? [])];
  if (vessels.length === 0) return { words: "", tone: "soft" };
  const drained = vessels.filter((vessel) => vessel.verdict === "drains");
  if (drained.length > 0)
    return {
      words: `Drains, to ${formatLevel(Math.min(...drained.map((vessel) => vessel.finalLevel)), system)}`,
      tone: "drains",
    };
  if (vessels.some((vessel) => vessel.heldBy === "movingPart"))
    return { words: "Holds its water, by a moving part", tone: "part" };
  return { words: "Holds its water, by geometry", tone: "held" };
}

/** What the pumps deliver together. */
export function deliveredOf(running: Running | null, system: UnitSystem): string {
  if (!running?.converged || running.pumps.size === 0) return "";
  let flow = 0;
  for (const pump of running.pumps.values()) flow += pump.flow;
  return formatFlow(flow, system);
}

export function spoken(section: Section, assessment: Assessment | null, system: UnitSystem): string {
  if (!assessment) return "";
  if (!assessment.running.converged) return "The running state could not be found.";
  const verdict = verdictOf(assessment, system).words;
  const delivered = deliveredOf(assessment.running, system);
  const failures = assessment.findings.filter((finding) => finding.severity === "failure").length;
  const looks = assessment.findings.length;
  if (section.parts.size === 0) return "";
  return [
    verdict,
    delivered && `delivers ${delivered}`,
    looks > 0 ? `${looks} to look at${failures > 0 ? `, ${failures} of them fail` : ""}` : "nothing to look at",
  ]
    .filter(Boolean)
    .join("; ");
}
