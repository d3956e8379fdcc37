/** What a report is of: a drawing, and the units it is read in. */
import { joinedBodies } from "../document/joined.ts";
import type { PartId, Section } from "../document/section.ts";
import type { CutVessel } from "../powerCut/powerCut.ts";
import type { UnitSystem } from "./formats.ts";
import { plain } from "./plain.ts";
import { type Says, sentencesOf } from "./sentence.ts";

export interface Of {
  readonly section: Section;
  readonly units: UnitSystem;
  /** a sentence of results as one harmless line, its figures in the reader's units */
  readonly says: Says;
  /** bodies that something leads to or from */
  readonly joined: ReadonlySet<PartId>;
}

export function reportOf(section: Section, units: UnitSystem): Of {
  const says = sentencesOf(section, units);
  return { section, units, says: (text) => says(plain(text)), joined: joinedBodies(section) };
}

/** Whether a vessel holds by no merit of its own: nothing leads to it or from it. */
export const onlyStands = ({ joined }: Of, id: PartId, { verdict }: CutVessel): boolean =>
  verdict === "held" && !joined.has(id);

/** Levels in sentences stand without their unit, as on a drawing. */
export const levelsSentence = (units: UnitSystem): string =>
  `Levels are in ${units === "us" ? "feet" : "metres"} above the drawing's datum.`;
