/** An id that no part has yet, and the last place in the file's order. */
import { type PartId, partId, type Section } from "../document/section.ts";

export function freshId(section: Section, word: string): PartId {
  for (let k = 1; ; k++) {
    const id = partId(k === 1 ? word : `${word}-${k}`);
    if (!section.parts.has(id)) return id;
  }
}

export const lastRank = (section: Section): number =>
  [...section.parts.values()].reduce((most, { rank }) => Math.max(most, rank), -1) + 1;
