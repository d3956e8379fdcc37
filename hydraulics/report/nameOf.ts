import type { PartId, Section } from "../document/section.ts";
import { plain } from "./plain.ts";

const longest = 28;

/** What a report calls a part: its label, cut where it is long, else its id. */
export function nameOf(section: Section, id: PartId): string {
  const label = [...plain(section.parts.get(id)?.label ?? "")];
  if (label.length === 0) return id;
  return label.length > longest ? `${label.slice(0, longest - 1).join("")}…` : label.join("");
}
