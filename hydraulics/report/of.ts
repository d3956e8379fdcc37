/** What a report is of: a drawing, and the units it is read in. */
import type { Section } from "../document/section.ts";
import type { UnitSystem } from "./formats.ts";
import { plain } from "./plain.ts";
import { namesToKeep, sentenceIn } from "./sentence.ts";

export interface Of {
  readonly section: Section;
  readonly units: UnitSystem;
  /** a sentence of results as one harmless line, its figures in the reader's units */
  readonly says: (text: string) => string;
}

export function reportOf(section: Section, units: UnitSystem): Of {
  const names = namesToKeep(section);
  return { section, units, says: (text) => sentenceIn(plain(text), units, names) };
}

/** Levels in sentences stand without their unit, as on a drawing. */
export const levelsSentence = (units: UnitSystem): string =>
  `Levels are in ${units === "us" ? "feet" : "metres"} above the drawing's datum.`;
