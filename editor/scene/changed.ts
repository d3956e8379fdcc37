/** Which parts have to be drawn anew from one drawing to the next: those that changed, those that read otherwise, and
 * whatever looks at them. A part looks at what it stands on (`standsOn`), so the set grows along these, and at few
 * other things, each named here:
 *
 *   pipe      its shut valves (water stops there) and whether it has a flush valve
 *   pump      the first leg of the pipe at its outlet
 *   body      pipes and pumps that pass its surface: the mark stands beside them
 *   spillway  over the ground it falls where no body stands
 *
 * `test/scene/follow.test.ts` draws random drags both ways and finds what is missing here. */
import { drawnWidth, type Part, type PartId, pipeLine } from "../../hydraulics/index.ts";
import { type Drawing, metresOf } from "./drawing.ts";
import { partsThatRead, type SeenRunning } from "./seen.ts";

const nothing: SeenRunning = {
  pumps: new Map(),
  pipes: new Map(),
  vessels: new Map(),
  vents: new Map(),
  ponds: new Map(),
  spillways: new Map(),
};

export function changedParts(before: Drawing, now: Drawing): ReadonlySet<PartId> {
  const changed = new Set<PartId>(partsThatRead(before.running ?? nothing, now.running ?? nothing));
  for (const [id, part] of now.section.parts) if (before.section.parts.get(id) !== part) changed.add(id);
  for (const id of before.section.parts.keys()) if (!now.section.parts.has(id)) changed.add(id);
  if (changed.size === 0) return changed;
  const drawings = [before, now];
  // What a device says of its pipe.
  for (const id of [...changed]) {
    for (const { section } of drawings) {
      const part = section.parts.get(id);
      if (part && "on" in part) changed.add(part.on.pipe);
    }
  }
  for (const drawing of drawings) grow(drawing, changed);
  // Pumps that a moved pipe made turn carry nothing further: what stands on them is that pipe.
  const marks = new Set<PartId>();
  const bodiesMoved = drawings.some(({ section }) => [...changed].some((id) => isBody(section.parts.get(id))));
  for (const drawing of drawings) {
    pumpsAt(drawing, changed, marks);
    bodiesUnder(drawing, changed, marks);
    if (bodiesMoved)
      for (const part of drawing.parts) if (part.kind === "spillway" && part.to === "ground") marks.add(part.id);
  }
  for (const id of marks) changed.add(id);
  return changed;
}

const isBody = (part: Part | undefined): boolean => part?.kind === "pond" || part?.kind === "vessel";

/** Adds all that stands, directly or not, on what is in the set. */
function grow({ parts }: Drawing, changed: Set<PartId>): void {
  const on = new Map<PartId, PartId[]>();
  for (const part of parts)
    for (const id of standsOn(part)) {
      const list = on.get(id);
      if (list) list.push(part.id);
      else on.set(id, [part.id]);
    }
  const open = [...changed];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    for (const next of on.get(id) ?? []) {
      if (changed.has(next)) continue;
      changed.add(next);
      open.push(next);
    }
  }
}

function standsOn(part: Part): readonly PartId[] {
  switch (part.kind) {
    case "pump":
      return part.in === undefined ? [] : [part.in];
    case "pipe":
      return [part.from, part.to].flatMap((end) => ("part" in end ? [end.part] : "pipe" in end ? [end.pipe] : []));
    case "valve":
    case "checkValve":
    case "vent":
      return [part.on.pipe];
    case "spillway":
      return part.to === "ground" ? [part.from] : [part.from, part.to];
    case "pond":
    case "vessel":
    case "note":
      return [];
  }
}

function pumpsAt({ section }: Drawing, changed: ReadonlySet<PartId>, found: Set<PartId>): void {
  for (const id of changed) {
    const pipe = section.parts.get(id);
    if (pipe?.kind !== "pipe" || !("part" in pipe.from)) continue;
    if (section.parts.get(pipe.from.part)?.kind === "pump") found.add(pipe.from.part);
  }
}

/** Bodies over whose width a changed pipe or pump lies. */
function bodiesUnder(drawing: Drawing, changed: ReadonlySet<PartId>, found: Set<PartId>): void {
  const near = metresOf(drawing, 10);
  const spans: (readonly [number, number])[] = [];
  for (const id of changed) {
    const part = drawing.section.parts.get(id);
    if (part?.kind === "pump") spans.push([part.x - near, part.x + near]);
    if (part?.kind !== "pipe") continue;
    const xs = pipeLine(drawing.section, part).map(([x]) => x);
    spans.push([Math.min(...xs) - part.bore - near, Math.max(...xs) + part.bore + near]);
  }
  if (spans.length === 0) return;
  for (const part of drawing.parts) {
    if (part.kind !== "pond" && part.kind !== "vessel") continue;
    const right = part.x + drawnWidth(part);
    if (spans.some(([from, to]) => from <= right && to >= part.x)) found.add(part.id);
  }
}
