import { isDevice, lineLength, type PartId, pipeLine, placeAt, type Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { fine, round } from "./rounded.ts";

/** Slides a valve, check valve or breather along its pipe, or onto another. A riser keeps its length. */
export function slideDevice(section: Section, id: PartId, pipeId: PartId, at: number): Changed {
  const pipe = section.parts.get(pipeId);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Valves and breathers sit on a pipe." };
  return act(section, `Slide ${partNameById(section, id)}`, (draft) => {
    const device = draft.parts.get(id);
    if (!isDevice(device)) return;
    const line = pipeLine(section, pipe);
    const along = fine(Math.min(Math.max(at, 0), lineLength(line)));
    if (device.kind === "vent" && device.openEndZ !== undefined) {
      const on = section.parts.get(device.on.pipe);
      const was = on?.kind === "pipe" ? placeAt(pipeLine(section, on), device.on.at)[1] : placeAt(line, along)[1];
      const level = placeAt(line, along)[1];
      // Along a level run it stays as it is.
      if (level !== was) device.openEndZ = round(level + Math.max(0, device.openEndZ - was));
    }
    if (device.on.pipe !== pipeId) device.on.pipe = pipeId;
    device.on.at = along;
  });
}
