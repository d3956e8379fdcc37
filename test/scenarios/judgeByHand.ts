/** The judge, fed with running levels and ratings by hand. */

import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { type ClosedForm, closedForm } from "../../hydraulics/powerCut/closedForm.ts";
import type { VentRating } from "../../hydraulics/powerCut/powerCut.ts";

export function judgeByHand(
  section: Section,
  hand: {
    start: Readonly<Record<string, number>>;
    vents?: Readonly<Record<string, VentRating>> | undefined;
    fast?: readonly string[] | undefined;
  },
): ClosedForm {
  const startLevels = new Map<PartId, number>();
  const ventRatings = new Map<PartId, VentRating>();
  for (const part of section.parts.values()) {
    if (part.kind === "pond") startLevels.set(part.id, part.waterLevel);
    if (part.kind === "vessel") startLevels.set(part.id, named(hand.start, part.id));
    if (part.kind === "vent") ventRatings.set(part.id, named(hand.vents ?? {}, part.id));
  }
  return closedForm(section, { startLevels, ventRatings, fastPipes: new Set((hand.fast ?? []) as PartId[]) });
}

function named<T>(by: Readonly<Record<string, T>>, id: PartId): T {
  const value = by[id];
  if (value === undefined) throw new Error(`the table says nothing of ${id}`);
  return value;
}
