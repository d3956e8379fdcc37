import type { PartId, Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";

export function removeBend(section: Section, id: PartId, index: number): Changed {
  return act(section, `Take a bend out of ${partNameById(section, id)}`, (draft) => {
    const target = draft.parts.get(id);
    if (target?.kind === "pipe") target.route?.splice(index, 1);
  });
}
