/** Keys that change what the hand does: the space bar, Alt in mid drag. */
import type { Hands } from "./hands.ts";
import { goOn } from "./move.ts";

export function key(hands: Hands, event: KeyboardEvent): void {
  const typing =
    event.target instanceof HTMLElement &&
    event.target.closest("input, textarea, select, button, [role=slider]") !== null;
  if (event.key === " " && !typing) {
    hands.spaceHeld = event.type === "keydown";
    event.preventDefault();
    hands.show({ cursor: hands.spaceHeld ? "grab" : "default" });
  }
  if (event.key === "Alt" && hands.last && (hands.hand.does === "drag" || hands.hand.does === "pull")) {
    event.preventDefault();
    goOn(
      hands,
      "pointer" in hands.hand && hands.hand.pointer !== null ? hands.hand.pointer : -1,
      hands.last.at,
      event.type === "keydown",
      hands.last.touch,
      false,
    );
  }
}

/** Keys that are let go in another window are never told. */
export function away(hands: Hands): void {
  hands.spaceHeld = false;
}
