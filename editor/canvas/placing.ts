/** What a tool would set down at a place: the same for the ghost under the pointer and for the click. */
import { type Body, lineLength, type PartId, type Point, pipeLine, type Section } from "../../hydraulics/index.ts";
import { placeDevice } from "../state/actions/placeDevice.ts";
import { placePart } from "../state/actions/placePart.ts";
import { placePipe } from "../state/actions/placePipe.ts";
import { placeSpillway } from "../state/actions/placeSpillway.ts";
import { round } from "../state/actions/rounded.ts";
import type { Changed } from "../state/edit.ts";
import { bodiesOf } from "../state/inOrder.ts";
import type { Tool } from "../state/view.ts";
import { pipeAt } from "./grip.ts";

export function placeTool(section: Section, tool: Exclude<Tool, "pipe">, at: Point, reach: number): Changed {
  switch (tool) {
    case "pond":
    case "vessel":
    case "pump":
    case "note":
      return placePart(section, tool, at);
    case "valve":
    case "checkValve":
    case "vent": {
      const on = pipeAt(section, at, reach * 2);
      return on
        ? placeDevice(section, tool, on.pipe, on.at)
        : { ok: false, why: "Valves and breathers sit on a pipe: drop it on one." };
    }
    case "spillway":
      return placeSpillway(section, at);
  }
}

/** For hands without a pointer: in the middle of what is shown, or on the chosen pipe. */
export function placeByKey(section: Section, tool: Tool, seen: Point, selection: ReadonlySet<PartId>): Changed {
  const middle: Point = [round(seen[0]), round(seen[1])];
  if (tool === "pipe")
    return placePipe(section, {
      from: [middle[0] - 0.5, middle[1]],
      to: [middle[0] + 0.5, middle[1]],
      reach: 0,
      straight: true,
      free: true,
    });
  const ground = section.site.groundLevel ?? 0;
  if (tool === "valve" || tool === "checkValve" || tool === "vent") {
    const pipe =
      [...section.parts.values()].find((part) => part.kind === "pipe" && selection.has(part.id)) ??
      [...section.parts.values()].find((part) => part.kind === "pipe");
    if (pipe?.kind !== "pipe") return { ok: false, why: "Valves and breathers sit on a pipe: draw one first." };
    return placeDevice(section, tool, pipe.id, lineLength(pipeLine(section, pipe)) / 2);
  }
  if (tool === "spillway" || tool === "pump") {
    const body = chosenBody(section, selection, tool === "pump" ? "pond" : "vessel");
    if (!body)
      return tool === "pump"
        ? placePart(section, "pump", [middle[0], ground])
        : { ok: false, why: "A spillway is cut into a rim: draw a pond or a vessel first." };
    if (tool === "spillway") return placeSpillway(section, [body.x + 0.01, body.rimLevel - 0.01]);
    const bottom = body.kind === "pond" ? body.bedLevel : body.baseLevel;
    return placePart(section, "pump", [body.x + 0.3, bottom + 0.15]);
  }
  if (tool === "note") return placePart(section, "note", middle);
  return placePart(section, tool, [clearOf(section, middle[0]), tool === "pond" ? ground - 0.1 : ground + 0.1]);
}

/** The chosen body if it is of the wished kind, else the first of that kind, else any. */
function chosenBody(section: Section, selection: ReadonlySet<PartId>, wished: "pond" | "vessel"): Body | undefined {
  const bodies = bodiesOf(section);
  const fit = bodies.filter((body) => body.kind === wished);
  return (
    fit.find((body) => selection.has(body.id)) ?? fit[0] ?? bodies.find((body) => selection.has(body.id)) ?? bodies[0]
  );
}

/** To the right of what stands there, so that two bodies set down by key do not lie in one another. */
function clearOf(section: Section, x: number): number {
  let right = Number.NEGATIVE_INFINITY;
  for (const part of section.parts.values()) {
    if (part.kind === "pond") right = Math.max(right, part.x + part.width);
    if (part.kind === "vessel")
      right = Math.max(right, part.x + (part.plan.shape === "round" ? part.plan.diameter : part.plan.width));
  }
  return Number.isFinite(right) ? right + 1.6 : x;
}
