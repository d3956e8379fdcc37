import type { Part, PartId, Section } from "../../hydraulics/index.ts";

/** What people call a part, wherever one is named: its label, else its id in words. */
export const partName = ({ label, id }: Pick<Part, "label" | "id">): string => (label?.trim() ? label : idInWords(id));

export const partNameById = (section: Section, id: PartId): string => partName(section.parts.get(id) ?? { id });

/** Within a sentence: a label as it is written, an id in small letters, as the findings have it. */
export const nameWithin = ({ label, id }: Pick<Part, "label" | "id">): string => (label?.trim() ? label : wordsOf(id));

/** `purge-valve` → `Purge valve`, `pipe-3` → `Pipe 3` */
export function idInWords(id: PartId): string {
  const words = wordsOf(id);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const wordsOf = (id: PartId): string => id.replace(/-+/g, " ").trim() || id;
