import type { PartId, Point, Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { evenPoint } from "./rounded.ts";

/** Moves one bend of a pipe to a place. */
export function movePipeBend(section: Section, id: PartId, index: number, to: Point): Changed {
  return act(section, `Move a bend of ${partNameById(section, id)}`, (draft) => {
    const target = draft.parts.get(id);
    if (target?.kind !== "pipe" || !target.route?.[index]) return;
    target.route[index] = [...evenPoint(to)] as [number, number];
  });
}
