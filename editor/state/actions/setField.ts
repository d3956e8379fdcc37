import type { Draft } from "immer";
import type { Part, PartId, Section, Site } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";

/** Changes a field of one part or of several at once; `label` is the step's name. */
export function setField(
  section: Section,
  ids: Iterable<PartId>,
  label: string,
  change: (part: Draft<Part>) => void,
): Changed {
  return act(section, label, (draft) => {
    for (const id of ids) {
      const part = draft.parts.get(id);
      if (part) change(part);
    }
  });
}

export function setSite(section: Section, label: string, change: (site: Draft<Site>) => void): Changed {
  return act(section, label, (draft) => change(draft.site));
}

export function setTitle(section: Section, title: string): Changed {
  return act(section, "Name the drawing", (draft) => {
    draft.title = title;
  });
}
