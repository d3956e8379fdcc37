import type { PartId, Section } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";

/** Takes parts off the sheet. Pipes that ended at them keep their place with an open end; what sat on a
 * removed pipe goes with it (`settle.ts`). */
export function removeParts(section: Section, ids: ReadonlySet<PartId>): Changed {
  const first = section.parts.get([...ids][0] as PartId);
  return act(
    section,
    ids.size === 1 ? `Remove ${first?.label ?? first?.id ?? ""}` : `Remove ${ids.size} parts`,
    (draft) => {
      for (const id of ids) draft.parts.delete(id);
    },
  );
}
