/** Groups of pipes for the judge of a power cut: section 6 of the design notes, last points. */
import { isBody } from "../document/isKind.ts";
import type { Body, PartId, Pipe, Pump, Section } from "../document/section.ts";

export const bodiesOf = (section: Section): readonly Body[] => [...section.parts.values()].filter(isBody);

/** Values by a key, in order. */
export function gather<K, V>(values: readonly V[], keyOf: (value: V) => K): ReadonlyMap<K, readonly V[]> {
  const by = new Map<K, V[]>();
  for (const value of values) {
    const there = by.get(keyOf(value));
    if (there) there.push(value);
    else by.set(keyOf(value), [value]);
  }
  return by;
}

export interface Group {
  readonly pipes: readonly Pipe[];
  readonly pumps: readonly Pump[];
}

/** Pipes joined by tees or by a pump, on or off. */
export function groupsOf(section: Section): readonly Group[] {
  const parts = [...section.parts.values()];
  const lead = new Map<PartId, PartId>();
  const root = (id: PartId): PartId => {
    let at = id;
    for (let up = lead.get(at); up !== undefined && up !== at; up = lead.get(at)) {
      // Each look halves the path, so that a long chain of tees is walked once.
      lead.set(at, lead.get(up) ?? up);
      at = up;
    }
    return at;
  };
  const join = (a: PartId, b: PartId) => lead.set(root(a), root(b));
  for (const part of parts) {
    if (part.kind === "pump") lead.set(part.id, root(part.id));
    if (part.kind !== "pipe") continue;
    for (const end of [part.from, part.to]) {
      if ("pipe" in end) join(part.id, end.pipe);
      else if ("part" in end && section.parts.get(end.part)?.kind === "pump") join(part.id, end.part);
    }
  }
  const groups = new Map<PartId, { pipes: Pipe[]; pumps: Pump[] }>();
  for (const part of parts) {
    if (part.kind !== "pipe" && part.kind !== "pump") continue;
    const key = root(part.id);
    const group = groups.get(key) ?? { pipes: [], pumps: [] };
    groups.set(key, group);
    if (part.kind === "pipe") group.pipes.push(part);
    else group.pumps.push(part);
  }
  return [...groups.values()];
}
