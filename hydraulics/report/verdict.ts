import { joinedBodies } from "../document/joined.ts";
import type { PartId, Section } from "../document/section.ts";
import type { Assessment } from "./assessment.ts";

export type Verdict =
  /** no running state, or a power cut that could not be followed to its end */
  | { readonly word: "no answer"; readonly parts: readonly PartId[] }
  | { readonly word: "drains"; readonly parts: readonly PartId[] }
  /** every vessel is held, something else fails */
  | { readonly word: "fails"; readonly parts: readonly PartId[] }
  /** at least one vessel is held by a check valve alone */
  | { readonly word: "held by a moving part"; readonly parts: readonly PartId[] }
  /** nothing leads to any vessel or from it: it holds, and that says nothing yet */
  | { readonly word: "not joined"; readonly parts: readonly PartId[] }
  | { readonly word: "held"; readonly parts: readonly PartId[] };

/** The drawing in a word, the worst that is true of it, and the parts that it is true of. */
export function verdictOf(section: Section, { running, powerCut, findings }: Assessment): Verdict {
  if (!running.converged) return { word: "no answer", parts: running.parts };
  if (powerCut?.failedAt) return { word: "no answer", parts: powerCut.failedAt };
  const vessels = [...(powerCut?.vessels ?? [])];
  const draining = vessels.filter(([, vessel]) => vessel.verdict === "drains").map(([id]) => id);
  if (draining.length > 0) return { word: "drains", parts: draining };
  const failures = findings.filter((finding) => finding.severity === "failure");
  if (failures.length > 0) return { word: "fails", parts: [...new Set(failures.flatMap((finding) => finding.parts))] };
  const byMovingPart = vessels.filter(([, vessel]) => vessel.heldBy === "movingPart").map(([id]) => id);
  if (byMovingPart.length > 0) return { word: "held by a moving part", parts: byMovingPart };
  const held = vessels.map(([id]) => id);
  const joined = joinedBodies(section);
  const judged = held.filter((id) => joined.has(id));
  if (judged.length === 0 && held.length > 0) return { word: "not joined", parts: held };
  return { word: "held", parts: judged };
}

/** Whether every vessel is held and nothing fails. A drawing without an answer is not sound. */
export function isSound(section: Section, assessment: Assessment): boolean {
  const { word } = verdictOf(section, assessment);
  return word === "held" || word === "held by a moving part" || word === "not joined";
}
