/** Pointers, wheel and double clicks on the sheet, told as one machine: what the hand is doing now is one
 * value of `Hand`, and every way out of it (up, Escape, a lost pointer, a step taken back meanwhile) either
 * keeps the preview or drops it. What each event does stands in `gesture/`. */
import type { Tool } from "../state/view.ts";
import { doubleClick } from "./gesture/doubleClick.ts";
import type { GestureContext } from "./gesture/hand.ts";
import { Hands } from "./gesture/hands.ts";
import { away, key } from "./gesture/keys.ts";
import { deskChanged, move, sheetMoved } from "./gesture/move.ts";
import { press } from "./gesture/press.ts";
import { left, up } from "./gesture/release.ts";
import { wheel } from "./gesture/wheel.ts";

export { type HandShow, restingHand } from "./gesture/hand.ts";

export interface Gestures {
  /** Escape: true where there was something to leave. */
  cancel(): boolean;
  /** A stencil was pressed: it may be pulled onto the sheet. */
  pull(
    tool: Tool,
    event: {
      readonly pointerId: number;
      readonly clientX: number;
      readonly clientY: number;
      readonly pointerType: string;
    },
  ): void;
  /** The camera is another. */
  sheetMoved(): void;
  detach(): void;
}

export function attachGestures(element: HTMLElement, context: GestureContext): Gestures {
  const hands = new Hands(element, context);
  const stop = new AbortController();
  const { signal } = stop;
  // A long press of a finger is a drag about to begin, not a wish for the browser's own menu.
  element.addEventListener("contextmenu", (event) => event.preventDefault(), { signal });
  element.addEventListener("pointerdown", (event) => press(hands, event), { signal });
  window.addEventListener("pointermove", (event) => move(hands, event), { signal });
  window.addEventListener("pointerup", (event) => up(hands, event), { signal });
  window.addEventListener("pointercancel", (event) => hands.lose(event.pointerId), { signal });
  element.addEventListener("pointerleave", () => left(hands), { signal });
  element.addEventListener("wheel", (event) => wheel(hands, event), { signal, passive: false });
  element.addEventListener("dblclick", (event) => doubleClick(hands, event), { signal });
  window.addEventListener("keydown", (event) => key(hands, event), { signal });
  window.addEventListener("keyup", (event) => key(hands, event), { signal });
  window.addEventListener("blur", () => away(hands), { signal });
  signal.addEventListener(
    "abort",
    hands.desk.subscribe(() => deskChanged(hands)),
  );
  return {
    cancel: () => hands.cancel(),
    pull(tool, event) {
      hands.stencil = { tool, pointer: event.pointerId, at: hands.px(event) };
    },
    sheetMoved: () => sheetMoved(hands),
    detach() {
      cancelAnimationFrame(hands.frame);
      stop.abort();
    },
  };
}
