/** What makes one section of another, so that a worker which has the one need not be sent all of the other: parts that an
 * edit leaves alone stay the same objects. */
import { otherParts, type Part, type PartId, type Section } from "../../hydraulics/index.ts";

export interface SectionDelta {
  readonly title: string;
  readonly site: Section["site"];
  readonly set: readonly Part[];
  readonly gone: readonly PartId[];
}

export function sectionDelta(before: Section | null, now: Section): SectionDelta {
  const { title, site } = now;
  if (!before) return { title, site, set: [...now.parts.values()], gone: [] };
  const set: Part[] = [];
  const gone: PartId[] = [];
  for (const id of otherParts(before, now)) {
    const part = now.parts.get(id);
    if (part) set.push(part);
    else gone.push(id);
  }
  return { title, site, set, gone };
}

export function withDelta(before: Section | null, { title, site, set, gone }: SectionDelta): Section {
  const parts = new Map(before?.parts);
  for (const id of gone) parts.delete(id);
  for (const part of set) parts.set(part.id, part);
  return { title, site, parts };
}
