import { addBend } from "../../state/actions/addBend.ts";
import { removeBend } from "../../state/actions/removeBend.ts";
import { handleAt } from "../grip.ts";
import type { Hands } from "./hands.ts";

/** A bend on a pipe, or one less. */
export function doubleClick(hands: Hands, event: MouseEvent): void {
  const at = hands.px(event);
  const { section, view } = hands.desk.get();
  if (view.tool) return;
  const site = hands.site(at);
  const handle = handleAt(section, view.selection, site, hands.metres(9), hands.metres(1));
  if (handle?.grip.of === "bend") {
    hands.desk.apply(removeBend(section, handle.grip.part, handle.grip.index));
    return;
  }
  const part = hands.met(at, 5);
  if (part && section.parts.get(part)?.kind === "pipe") hands.desk.apply(addBend(section, part, site));
}
