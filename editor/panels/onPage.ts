/** Sentences as they stand on the page, in the units that are shown: a figure does not part from its unit at the end of a
 * line. On the drawing lines are broken by hand, so there they come from `sheet/sentence.ts` as they are. */
import type { Section } from "../../hydraulics/index.ts";
import { type Says, sentenceIn, sentencesOf } from "../sheet/sentence.ts";
import { type UnitSystem, unparted } from "../sheet/units.ts";

export function sentencesOnPage(section: Section, units: UnitSystem): Says {
  const says = sentencesOf(section, units);
  return (text) => unparted(says(text));
}

/** One that speaks of no drawing. */
export const sentenceOnPage = (text: string, units: UnitSystem): string => unparted(sentenceIn(text, units, []));
