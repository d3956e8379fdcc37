import {
  lineLength,
  nearestOnLine,
  type PartId,
  type Point,
  pipeLine,
  placeAt,
  type Section,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { round } from "./rounded.ts";

/** Puts a bend on a pipe where it passes nearest to a place. */
export function addBend(section: Section, id: PartId, near: Point): Changed {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Only a pipe can be bent." };
  const line = pipeLine(section, pipe);
  const { at } = nearestOnLine(line, near);
  const [x, z] = placeAt(line, at);
  const point: Point = [round(x), round(z)];
  let before = 0;
  while (before < line.length - 2 && lineLength(line.slice(0, before + 2)) < at) before += 1;
  if ((pipe.route?.length ?? 0) >= 200) return { ok: false, why: "A pipe has at most 200 bends." };
  return act(section, `Add a bend to ${partName(pipe)}`, (draft) => {
    const target = draft.parts.get(id);
    if (target?.kind !== "pipe") return;
    const route = target.route ?? [];
    target.route = [...route.slice(0, before), [...point] as [number, number], ...route.slice(before)];
  });
}
