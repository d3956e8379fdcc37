import {
  isDevice,
  type Part,
  type PartId,
  type PipeEnd,
  type Point,
  pipeLine,
  type Section,
} from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { inOrder } from "../inOrder.ts";
import { copiedText } from "./copiedText.ts";
import { openAt } from "./endAt.ts";
import { type Pasted, pasteParts } from "./pasteParts.ts";
import { removeParts } from "./removeParts.ts";

/** Parts as text, with what carries them. */
export function copyParts(section: Section, ids: ReadonlySet<PartId>): string {
  const carriers = carriersOf(section, ids);
  const parts = new Map<PartId, Part>();
  for (const part of inOrder(section))
    if (ids.has(part.id) || carriers.has(part.id)) parts.set(part.id, onItsOwn(section, part, ids));
  return copiedText({ section: { title: "Copied parts", site: {}, parts }, carriers });
}

export interface Cut {
  readonly changed: Changed;
  /** all that went, a valve that went with its pipe too; null where nothing did */
  readonly text: string | null;
}

export function cutParts(section: Section, ids: ReadonlySet<PartId>): Cut {
  const changed = removeParts(section, ids);
  if (!changed.ok || !changed.edit) return { changed, text: null };
  const gone = [...section.parts.keys()].filter((id) => !changed.section.parts.has(id));
  return { changed, text: copyParts(section, new Set(gone)) };
}

export function duplicateParts(section: Section, ids: ReadonlySet<PartId>): Pasted {
  const label = ids.size === 1 ? "Duplicate" : `Duplicate ${ids.size} parts`;
  return pasteParts(section, copyParts(section, ids), 0.2, 0, { label });
}

/** What is not copied but carries what is, and can not be left out: the pipe of a valve, the bodies at a spillway. */
function carriersOf(section: Section, ids: ReadonlySet<PartId>): ReadonlySet<PartId> {
  const carriers = new Set<PartId>();
  for (const part of section.parts.values()) {
    if (!ids.has(part.id)) continue;
    if (isDevice(part)) carriers.add(part.on.pipe);
    if (part.kind !== "spillway" || ids.has(part.from)) continue;
    carriers.add(part.from);
    if (part.to !== "ground") carriers.add(part.to);
  }
  for (const id of ids) carriers.delete(id);
  return carriers;
}

/** A part without its ties to parts that are not copied, but for those it can not be without. */
function onItsOwn(section: Section, part: Part, ids: ReadonlySet<PartId>): Part {
  switch (part.kind) {
    case "pipe": {
      const line = pipeLine(section, part);
      const loose = (end: PipeEnd, place: Point = [0, 0]): PipeEnd => {
        const held = "part" in end ? ids.has(end.part) : "pipe" in end ? ids.has(end.pipe) : true;
        return held ? end : openAt(place);
      };
      return { ...part, from: loose(part.from, line[0]), to: loose(part.to, line.at(-1)) };
    }
    case "spillway":
      // Where its body stays behind it is pasted onto that one, and falls where it fell.
      return ids.has(part.from) && part.to !== "ground" && !ids.has(part.to) ? { ...part, to: "ground" } : part;
    case "vessel":
      return part.overflow === undefined || part.overflow === "ground" || ids.has(part.overflow)
        ? part
        : { ...part, overflow: "ground" };
    case "pump": {
      if (part.in === undefined || ids.has(part.in)) return part;
      const { in: _, ...rest } = part;
      return rest;
    }
    default:
      return part;
  }
}
