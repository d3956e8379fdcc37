/** What a report is of: a drawing, and the units it is read in. */
import type { Section } from "../document/section.ts";
import type { UnitSystem } from "./formats.ts";
import { plain } from "./plain.ts";
import { type Says, sentencesOf } from "./sentence.ts";

export interface Of {
  readonly section: Section;
  readonly units: UnitSystem;
  /** a sentence of results as one harmless line, its figures in the reader's units */
  readonly says: Says;
}

export function reportOf(section: Section, units: UnitSystem): Of {
  const says = sentencesOf(section, units);
  return { section, units, says: (text) => says(plain(text)) };
}

/** Levels in sentences stand without their unit, as on a drawing. */
export const levelsSentence = (units: UnitSystem): string =>
  `Levels are in ${units === "us" ? "feet" : "metres"} above the drawing's datum.`;
