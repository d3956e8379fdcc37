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
import {
  addPipesUnder,
  drawnWidth,
  isBody,
  otherParts,
  type PartId,
  pipeLine,
  withAllOn,
} from "../../hydraulics/index.ts";
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
  const changed = otherParts(before.section, now.section);
  for (const id of partsThatRead(before.running ?? nothing, now.running ?? nothing)) changed.add(id);
  if (changed.size === 0) return changed;
  const drawings = [before, now];
  // What a device says of its pipe.
  addPipesUnder(changed, before.section, now.section);
  for (const { section } of drawings) for (const id of withAllOn(section, changed)) changed.add(id);
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
