import type { PartId, Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";

/** Takes parts off the sheet. Pipes that ended at them keep their place with an open end; what sat on a
 * removed pipe goes with it (`settle.ts`). */
export function removeParts(section: Section, ids: ReadonlySet<PartId>): Changed {
  const what = ids.size === 1 ? partNameById(section, [...ids][0] as PartId) : `${ids.size} parts`;
  return act(section, `Remove ${what}`, (draft) => {
    for (const id of ids) draft.parts.delete(id);
  });
}
