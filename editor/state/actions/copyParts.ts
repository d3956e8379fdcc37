import type { Draft } from "immer";
import {
  type Part,
  type PartId,
  type PipeEnd,
  pipeLine,
  readSection,
  type Section,
  writeSection,
} from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { inOrder } from "../inOrder.ts";
import { act } from "./act.ts";
import { freeId, nextRank, round } from "./newPart.ts";

/** Parts as the text that goes on the clipboard: a drawing of its own. */
export function copyParts(section: Section, ids: ReadonlySet<PartId>): string {
  const parts = new Map<PartId, Part>();
  for (const part of inOrder(section)) {
    const copy = ids.has(part.id) ? onItsOwn(section, part, ids) : null;
    if (copy) parts.set(part.id, copy);
  }
  return writeSection({ title: "Copied parts", site: {}, parts });
}

/** A part without its ties to parts that are not copied; null where it can not be without them. */
function onItsOwn(section: Section, part: Part, ids: ReadonlySet<PartId>): Part | null {
  switch (part.kind) {
    case "pipe": {
      const line = pipeLine(section, part);
      const loose = (end: PipeEnd, [x, z]: readonly [number, number] = [0, 0]): PipeEnd => {
        const held = "part" in end ? ids.has(end.part) : "pipe" in end ? ids.has(end.pipe) : true;
        return held ? end : { open: true, x: round(x), z: round(z) };
      };
      return { ...part, from: loose(part.from, line[0]), to: loose(part.to, line.at(-1)) };
    }
    case "valve":
    case "checkValve":
    case "vent":
      return ids.has(part.on.pipe) ? part : null;
    case "spillway":
      return ids.has(part.from) ? { ...part, to: part.to === "ground" || ids.has(part.to) ? part.to : "ground" } : null;
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

export interface Pasted {
  readonly changed: Changed;
  readonly ids: ReadonlySet<PartId>;
}

/** Sets copied parts down beside where they were. Text that is no drawing is refused. */
export function pasteParts(section: Section, text: string, dx: number, dz: number, label = "Paste"): Pasted {
  const read = readSection(text);
  if (!read.ok) return { changed: { ok: false, why: "What was copied is no part of a drawing." }, ids: new Set() };
  const names = new Map<PartId, PartId>();
  const used = new Set<PartId>(section.parts.keys());
  for (const part of inOrder(read.value)) {
    const id = freeId(used, part.id);
    used.add(id);
    names.set(part.id, id);
  }
  let rank = nextRank(section);
  const shift = (part: Part): Part => {
    const base = { ...renamed(part, names), rank: rank++ };
    return moved(base, dx, dz);
  };
  const copies = inOrder(read.value).map(shift);
  const changed = act(section, label, (draft) => {
    for (const copy of copies) draft.parts.set(copy.id, copy as Draft<Part>);
  });
  return { changed, ids: new Set(copies.map((copy) => copy.id)) };
}

export function duplicateParts(section: Section, ids: ReadonlySet<PartId>): Pasted {
  return pasteParts(
    section,
    copyParts(section, ids),
    0.2,
    0,
    ids.size === 1 ? "Duplicate" : `Duplicate ${ids.size} parts`,
  );
}

function renamed(part: Part, names: ReadonlyMap<PartId, PartId>): Part {
  const name = (id: PartId): PartId => names.get(id) ?? id;
  const end = (e: PipeEnd): PipeEnd =>
    "part" in e ? { ...e, part: name(e.part) } : "pipe" in e ? { ...e, pipe: name(e.pipe) } : e;
  const id = name(part.id);
  switch (part.kind) {
    case "pipe":
      return { ...part, id, from: end(part.from), to: end(part.to) };
    case "valve":
      return { ...part, id, on: { ...part.on, pipe: name(part.on.pipe) } };
    case "checkValve":
      return { ...part, id, on: { ...part.on, pipe: name(part.on.pipe) } };
    case "vent":
      return { ...part, id, on: { ...part.on, pipe: name(part.on.pipe) } };
    case "spillway":
      return { ...part, id, from: name(part.from), to: part.to === "ground" ? "ground" : name(part.to) };
    case "vessel":
      return part.overflow === undefined || part.overflow === "ground"
        ? { ...part, id }
        : { ...part, id, overflow: name(part.overflow) };
    case "pump":
      return part.in === undefined ? { ...part, id } : { ...part, id, in: name(part.in) };
    default:
      return { ...part, id };
  }
}

function moved(part: Part, dx: number, dz: number): Part {
  const end = (e: PipeEnd): PipeEnd =>
    "open" in e
      ? { open: true, x: round(e.x + dx), z: round(e.z + dz) }
      : "part" in e
        ? {
            ...e,
            ...(e.x === undefined ? {} : { x: round(e.x + dx) }),
            ...(e.z === undefined ? {} : { z: round(e.z + dz) }),
          }
        : e;
  switch (part.kind) {
    case "pond":
      return {
        ...part,
        x: round(part.x + dx),
        bedLevel: round(part.bedLevel + dz),
        rimLevel: round(part.rimLevel + dz),
        waterLevel: round(part.waterLevel + dz),
      };
    case "vessel":
      return {
        ...part,
        x: round(part.x + dx),
        baseLevel: round(part.baseLevel + dz),
        rimLevel: round(part.rimLevel + dz),
      };
    case "pump":
    case "note":
      return { ...part, x: round(part.x + dx), z: round(part.z + dz) };
    case "pipe":
      return {
        ...part,
        from: end(part.from),
        to: end(part.to),
        ...(part.route ? { route: part.route.map(([x, z]) => [round(x + dx), round(z + dz)] as const) } : {}),
      };
    case "vent":
      return part.openEndZ === undefined ? part : { ...part, openEndZ: round(part.openEndZ + dz) };
    case "spillway":
      return { ...part, crestZ: round(part.crestZ + dz) };
    default:
      return part;
  }
}
