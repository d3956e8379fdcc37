import type { PartId, Point, Section } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { roundPoint } from "./newPart.ts";

/** Moves one bend of a pipe to a place. */
export function movePipeBend(section: Section, id: PartId, index: number, to: Point): Changed {
  const pipe = section.parts.get(id);
  return act(section, `Move a bend of ${pipe?.label ?? id}`, (draft) => {
    const target = draft.parts.get(id);
    if (target?.kind !== "pipe" || !target.route?.[index]) return;
    target.route[index] = [...roundPoint(to)] as [number, number];
  });
}
