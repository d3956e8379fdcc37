import type { Section } from "../../hydraulics/index.ts";
import { openOther } from "../link/openOther.ts";
import type { Desk } from "../state/desk.ts";

/** A new drawing on the desk; from an empty sheet without a word, since nothing lay there to come back to. */
export function openNew(desk: Desk, section: Section): void {
  if (desk.get().section.parts.size === 0) desk.open(section, null);
  else openOther(desk, section, section.parts.size > 0 ? "Drawn as a new drawing." : "A new sheet.");
}
