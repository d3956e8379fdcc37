/** Keys that change what the hand does: the space bar, Alt in mid drag. */
import type { Hands } from "./hands.ts";
import { goesByPlace, goOn } from "./move.ts";

export function key(hands: Hands, event: KeyboardEvent): void {
  if (event.key === " ") space(hands, event);
  if (event.key === "Alt" && hands.last && goesByPlace(hands)) {
    event.preventDefault();
    goOn(hands, hands.pointer(), hands.last.at, event.type === "keydown", hands.last.touch, false);
  }
}

const hasFocus = (event: KeyboardEvent, what: string): boolean =>
  event.target instanceof HTMLElement && event.target.closest(what) !== null;

/** Held, it makes the next press on the sheet take hold of the sheet, whatever has the focus but a field. What it
 * presses itself it still presses when it is let go: only a press on the sheet takes that away (`press.ts`). */
function space(hands: Hands, event: KeyboardEvent): void {
  const held = event.type === "keydown";
  if (held ? hasFocus(event, "input, textarea, select") : !hands.spaceHeld) return;
  hands.spaceHeld = held;
  if (!hasFocus(event, "input, textarea, select, button, summary, [role=slider]")) event.preventDefault();
  hands.show({ cursor: held ? "grab" : "default" });
}

/** Keys that are let go in another window are never told. */
export function away(hands: Hands): void {
  hands.spaceHeld = false;
}
