/** Which parts stand on which: a pump in its pond, a pipe at its ends, a valve on its pipe,
 * a vessel on what it spills into. */
import type { Part, PartId, PipeEnd, Section } from "./section.ts";

export function standsOn(part: Part): readonly PartId[] {
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

/** The parts of a set and all that stand on them, however far. */
export function withAllOn({ parts }: Section, ids: ReadonlySet<PartId>): ReadonlySet<PartId> {
  const hangers = new Map<PartId, PartId[]>();
  for (const part of parts.values())
    for (const id of standsOn(part)) {
      const there = hangers.get(id);
      if (there) there.push(part.id);
      else hangers.set(id, [part.id]);
    }
  return closure(ids, (id) => hangers.get(id) ?? []);
}

/** The parts of a set and all they stand on, however far. */
export const withAllUnder = ({ parts }: Section, ids: ReadonlySet<PartId>): ReadonlySet<PartId> =>
  closure(ids, (id) => {
    const part = parts.get(id);
    return part ? standsOn(part) : [];
  });

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

/** Parts that came, went or are another object. */
export function otherParts(before: Section, now: Section): Set<PartId> {
  const found = new Set<PartId>();
  for (const [id, part] of now.parts) if (before.parts.get(id) !== part) found.add(id);
  for (const id of before.parts.keys()) if (!now.parts.has(id)) found.add(id);
  return found;
}

/** The pipes that devices of a set sit on, into the set. */
export function addPipesUnder(found: Set<PartId>, ...sections: readonly Section[]): void {
  for (const id of [...found])
    for (const { parts } of sections) {
      const part = parts.get(id);
      if (part && "on" in part) found.add(part.on.pipe);
    }
}
