import type { Part, Section } from "../../hydraulics/index.ts";

/** The parts that a change brought. */
export const freshParts = (before: Section, now: Section): readonly Part[] =>
  [...now.parts.values()].filter(({ id }) => !before.parts.has(id));
