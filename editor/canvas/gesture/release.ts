/** How it ends: let go, lost, or left. */
import { dragFreshEnd, dragTool } from "../dragNew.ts";
import type { Hands } from "./hands.ts";
import { catchUp, hover } from "./move.ts";
import { beginPull, isNear, setDown } from "./place.ts";

export function up(hands: Hands, event: PointerEvent): void {
  const at = hands.px(event);
  catchUp(hands);
  hands.down.delete(event.pointerId);
  if (hands.stencil && event.pointerId === hands.stencil.pointer) {
    hands.stencil = null;
    return;
  }
  const touch = event.pointerType === "touch";
  switch (hands.hand.does) {
    case "press":
      if (event.pointerId !== hands.hand.pointer) return;
      if (!hands.hand.part && !event.shiftKey) hands.desk.choose([]);
      else if (
        hands.hand.part &&
        !hands.hand.added &&
        hands.desk.get().view.selection.size > 1 &&
        !event.shiftKey &&
        !event.ctrlKey &&
        !event.metaKey
      )
        hands.desk.choose([hands.hand.part]);
      hands.rest();
      return hover(hands, at, touch);
    case "drag":
      if (event.pointerId !== hands.hand.pointer) return;
      if (hands.hand.section !== hands.desk.get().section) hands.cancel();
      hands.desk.keepPreview();
      hands.rest();
      // What was pressed is no longer there: the leader leads to the part.
      hands.show({ pressed: null });
      return hover(hands, at, touch);
    case "marquee":
    case "pan":
      if (event.pointerId === hands.hand.pointer) {
        hands.rest(hands.hand.does === "pan" ? hands.hand.back : null);
        hands.show({ cursor: "default" });
      }
      return;
    case "pinch":
      if (hands.hand.pointers.includes(event.pointerId)) hands.rest(hands.hand.back);
      return;
    case "place": {
      if (event.pointerId !== hands.hand.pointer) return;
      const { tool, section } = hands.hand;
      hands.rest();
      hands.desk.dropPreview();
      if (section !== hands.desk.get().section || !hands.isOverField(at)) return;
      if (tool === "pipe") {
        // It is in the hand until its second end is set down.
        hands.desk.look((view) => ({ ...view, tool }));
        return beginPull(hands, at, touch, event.altKey, null);
      }
      setDown(hands, dragTool(section, tool, hands.wish(at, touch, event.altKey)).changed, event.timeStamp);
      return;
    }
    case "pull": {
      if (event.pointerId !== hands.hand.pointer) return;
      const { pressed, from, section } = hands.hand;
      if (isNear(hands, at, pressed)) {
        // A click: the far end follows the pointer and the next click sets it down.
        hands.hand = { ...hands.hand, pointer: null };
        return;
      }
      hands.rest();
      hands.desk.dropPreview();
      if (section !== hands.desk.get().section || !hands.isOverField(at)) return;
      setDown(hands, dragFreshEnd(section, from, hands.wish(at, touch, event.altKey)).changed, event.timeStamp);
      return;
    }
    default:
      return;
  }
}

export function left(hands: Hands): void {
  if (hands.hand.does === "nothing") {
    hands.later = null;
    hands.hideGhost();
  }
  hands.show({ at: null, hover: null });
}
