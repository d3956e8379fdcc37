import { addBend } from "../../state/actions/addBend.ts";
import { removeBend } from "../../state/actions/removeBend.ts";
import { handleAt } from "../grip.ts";
import type { Hands } from "./hands.ts";

/** ms between the first and the last of two clicks that are one double click, at most */
const oneClick = 700;

/** A bend on a pipe, or one less. */
export function doubleClick(hands: Hands, event: MouseEvent): void {
  const at = hands.px(event);
  const { section, view } = hands.desk.get();
  // The second press of two that set a part down bends nothing.
  if (view.tool || event.timeStamp - hands.setDownAt < oneClick) return;
  const site = hands.site(at);
  const handle = handleAt(section, view.selection, site, hands.metres(9), hands.metres(1));
  if (handle?.grip.of === "bend") {
    hands.desk.apply(removeBend(section, handle.grip.part, handle.grip.index));
    return;
  }
  const part = hands.met(at, 5);
  if (part && section.parts.get(part)?.kind === "pipe") hands.desk.apply(addBend(section, part, site));
}
