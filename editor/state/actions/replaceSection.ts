import type { Draft } from "immer";
import type { Part, Section } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";

/** Turns the drawing into another as one named step: a mend, a new layout. Only what differs is in the
 * edit, so that its patches stay plain JSON (a whole Map would not be). */
export function replaceSection(section: Section, label: string, by: Section): Changed {
  return act(section, label, (draft) => {
    if (draft.title !== by.title) draft.title = by.title;
    if (JSON.stringify(section.site) !== JSON.stringify(by.site)) draft.site = { ...by.site };
    for (const id of section.parts.keys()) if (!by.parts.has(id)) draft.parts.delete(id);
    for (const [id, part] of by.parts) {
      const was = section.parts.get(id);
      if (was !== part && JSON.stringify(was) !== JSON.stringify(part)) draft.parts.set(id, part as Draft<Part>);
    }
  });
}
