/** Pipes that lead nowhere taken off the drawing, with what stands on them. */
import type { PartId } from "../document/section.ts";
import { called } from "../findings/words.ts";
import type { Remedy } from "./remedy.ts";

export const takeAway: Remedy = function* ({ section, finding }) {
  const gone = new Set<PartId>(finding.parts.filter((id) => section.parts.get(id)?.kind === "pipe"));
  if (gone.size === 0 || gone.size < finding.parts.length) return;
  for (const part of section.parts.values()) {
    if ("on" in part && gone.has(part.on.pipe)) gone.add(part.id);
    // A pipe that ends in one of them would be left without an end.
    if (
      part.kind === "pipe" &&
      !gone.has(part.id) &&
      [part.from, part.to].some((end) => "pipe" in end && gone.has(end.pipe))
    )
      return;
  }
  yield {
    label: `Take ${finding.parts.map((id) => called(section, id)).join(" and ")} away`,
    section: { ...section, parts: new Map([...section.parts].filter(([id]) => !gone.has(id))) },
  };
};
