/** What a change can have put wrong: the parts it changed and all that stands on them, however far. Everything else
 * says what it said, about parts that say what they said. So a drag on a sheet of a thousand parts mends and reads
 * again a dozen. */
import {
  addPipesUnder,
  otherParts,
  type PartId,
  type Section,
  withAllOn,
  withAllUnder,
} from "../../../hydraulics/index.ts";

export function touched(before: Section, now: Section): ReadonlySet<PartId> {
  const found = otherParts(before, now);
  // Devices on one pipe keep apart from each other: all of them are asked.
  addPipesUnder(found, before, now);
  return withAllOn(now, found);
}

/** The parts of a set and all they stand on: a drawing of its own, in which they mean what they mean in the whole. */
export function drawingOfThese(section: Section, ids: ReadonlySet<PartId>): Section {
  const all = withAllUnder(section, ids);
  return { ...section, parts: new Map([...section.parts].filter(([id]) => all.has(id))) };
}
