/** What a change can have put wrong: the parts it changed and all that stands on them, however far. Everything else
 * says what it said, about parts that say what they said. So a drag on a sheet of a thousand parts mends and reads
 * again a dozen. */
import type { Part, PartId, PipeEnd, Section } from "../../../hydraulics/index.ts";

export function touched(before: Section, now: Section): ReadonlySet<PartId> {
  const found = new Set<PartId>();
  for (const [id, part] of now.parts) if (before.parts.get(id) !== part) found.add(id);
  for (const id of before.parts.keys()) if (!now.parts.has(id)) found.add(id);
  // Devices on one pipe keep apart from each other: all of them are asked.
  for (const id of [...found])
    for (const { parts } of [before, now]) {
      const part = parts.get(id);
      if (part && "on" in part) found.add(part.on.pipe);
    }
  const hangers = new Map<PartId, PartId[]>();
  for (const part of now.parts.values())
    for (const id of standsOn(part)) {
      const there = hangers.get(id);
      if (there) there.push(part.id);
      else hangers.set(id, [part.id]);
    }
  return closure(found, (id) => hangers.get(id) ?? []);
}

/** The parts of a set and all they stand on: a drawing of its own, in which they mean what they mean in the whole. */
export function drawingOfThese(section: Section, ids: ReadonlySet<PartId>): Section {
  const all = closure(ids, (id) => {
    const part = section.parts.get(id);
    return part ? standsOn(part) : [];
  });
  return { ...section, parts: new Map([...section.parts].filter(([id]) => all.has(id))) };
}

function closure(from: ReadonlySet<PartId>, next: (id: PartId) => readonly PartId[]): ReadonlySet<PartId> {
  const found = new Set(from);
  const open = [...from];
  for (let id = open.pop(); id !== undefined; id = open.pop())
    for (const other of next(id)) {
      if (found.has(other)) continue;
      found.add(other);
      open.push(other);
    }
  return found;
}

function standsOn(part: Part): readonly PartId[] {
  switch (part.kind) {
    case "vessel":
      return part.overflow === undefined || part.overflow === "ground" ? [] : [part.overflow];
    case "pump":
      return part.in === undefined ? [] : [part.in];
    case "pipe":
      return [...atEnd(part.from), ...atEnd(part.to)];
    case "valve":
    case "checkValve":
    case "vent":
      return [part.on.pipe];
    case "spillway":
      return part.to === "ground" ? [part.from] : [part.from, part.to];
    case "pond":
    case "note":
      return [];
  }
}

const atEnd = (end: PipeEnd): readonly PartId[] => ("part" in end ? [end.part] : "pipe" in end ? [end.pipe] : []);
