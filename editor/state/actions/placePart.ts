import type { Draft } from "immer";
import type { Part, Point, Section } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { newPart } from "./newPart.ts";

const labels = { pond: "Set down a pond", vessel: "Set down a vessel", pump: "Set down a pump", note: "Write a note" };

/** Sets down a part that stands by itself. */
export function placePart(section: Section, kind: "pond" | "vessel" | "pump" | "note", at: Point): Changed {
  const part = newPart(section, kind, at);
  return act(section, labels[kind], (draft) => {
    draft.parts.set(part.id, part as Draft<Part>);
  });
}
