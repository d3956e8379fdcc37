/** A copy of a section with parts changed or added. */
import type { Part, PartId, Section } from "../document/section.ts";

export function withParts(section: Section, ...changed: readonly Part[]): Section {
  const parts = new Map<PartId, Part>(section.parts);
  for (const part of changed) parts.set(part.id, part);
  return { ...section, parts };
}

/** The parts of a copy that are not the drawing's own. */
export const changedParts = (before: Section, after: Section): readonly Part[] =>
  [...after.parts.values()].filter((part) => before.parts.get(part.id) !== part);

export const partsOf = <K extends Part["kind"]>(section: Section, kind: K): readonly Extract<Part, { kind: K }>[] =>
  [...section.parts.values()].filter((part): part is Extract<Part, { kind: K }> => part.kind === kind);
