/** The drawing as it stands in a fault that is played: its valves, its plugs, its parted lines. */
import { type FaultResult, type Part, type PartId, type Section, sectionInFault } from "../../hydraulics/index.ts";
import type { Role } from "./node.ts";

/** Parts that a fault adds have ids of their own with a dot in them, which no file's ids have; before the dot stands
 * the part they come from. */
export const ownerOf = (id: PartId): PartId => id.split(".", 1)[0] as PartId;

/** A piece of a line keeps the line's name, a plug is called what it is. */
export function inFault(section: Section, fault: FaultResult): Section {
  const named = fault.changed.map((part): Part => {
    if (section.parts.has(part.id)) return part;
    const { label, id } = section.parts.get(ownerOf(part.id)) ?? part;
    return part.kind === "valve" ? { ...part, label: "Blocked here" } : { ...part, label: label ?? id };
  });
  return sectionInFault(section, { changed: named });
}

interface Played {
  readonly fault: FaultResult | null;
}

export const isInFault = ({ fault }: Played, id: PartId): boolean =>
  fault?.changed.some((part) => part.id === id) === true;

/** What is the matter with the very part that fails, where its own words do not tell. */
const matters: Readonly<Record<string, string>> = {
  returnHalfBlocked: "half blocked",
  mediaClogged: "media clogged",
  pumpWeak: "weak",
};

export const matterOf = ({ fault }: Played, id: PartId): string | null =>
  fault?.part === id ? (matters[fault.fault] ?? null) : null;

/** Words of a part that is not as drawn stand out, by colour and by what they say. */
export const wordRole = (drawing: Played, id: PartId): Role => (isInFault(drawing, id) ? "part" : "soft");
