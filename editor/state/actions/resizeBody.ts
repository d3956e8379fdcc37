import { drawnWidth, type PartId, type Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { even } from "./rounded.ts";

export type Edge = "left" | "right" | "rim" | "bottom" | "water";

const leastWidth = 0.1;
const leastHeight = 0.05;

/** Moves one edge of a pond or vessel to an x (left, right) or a level (rim, bottom, water). */
export function resizeBody(section: Section, id: PartId, edge: Edge, to: number): Changed {
  return act(section, `${words[edge]} of ${partNameById(section, id)}`, (draft) => {
    const body = draft.parts.get(id);
    if (body?.kind !== "pond" && body?.kind !== "vessel") return;
    if (edge === "left" || edge === "right") {
      const old = drawnWidth(body);
      const right = body.x + old;
      const width = even(Math.max(leastWidth, edge === "right" ? to - body.x : right - to));
      if (edge === "left") body.x = even(right - width);
      if (body.kind === "pond") body.width = width;
      else if (body.plan.shape === "round") body.plan.diameter = width;
      else body.plan.width = width;
      return;
    }
    if (body.kind === "pond") {
      if (edge === "water") body.waterLevel = clamp(even(to), body.bedLevel, body.rimLevel);
      if (edge === "rim") body.rimLevel = Math.max(even(to), even(body.bedLevel + leastHeight));
      if (edge === "bottom") body.bedLevel = Math.min(even(to), even(body.rimLevel - leastHeight));
      body.waterLevel = clamp(body.waterLevel, body.bedLevel, body.rimLevel);
      return;
    }
    if (edge === "rim") body.rimLevel = Math.max(even(to), even(body.baseLevel + leastHeight));
    if (edge === "bottom") body.baseLevel = Math.min(even(to), even(body.rimLevel - leastHeight));
  });
}

const words: Record<Edge, string> = {
  left: "Set the left edge",
  right: "Set the right edge",
  rim: "Set the rim",
  bottom: "Set the floor",
  water: "Set the water level",
};
const clamp = (value: number, least: number, greatest: number): number => Math.min(Math.max(value, least), greatest);
