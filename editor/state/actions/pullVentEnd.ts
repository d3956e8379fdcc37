import { type PartId, pipeLine, placeAt, type Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { even } from "./rounded.ts";

/** Pulls the open end of a breather's riser up or down; it ends at its pipe at the lowest. */
export function pullVentEnd(section: Section, id: PartId, level: number): Changed {
  return act(section, `Set the open end of ${partNameById(section, id)}`, (draft) => {
    const vent = draft.parts.get(id);
    if (vent?.kind !== "vent") return;
    const on = section.parts.get(vent.on.pipe);
    const tee = on?.kind === "pipe" ? placeAt(pipeLine(section, on), vent.on.at)[1] : level;
    vent.openEndZ = Math.max(even(level), tee);
  });
}
