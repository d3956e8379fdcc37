/** What a move does, while something is held and while nothing is. */
import { drag } from "../drag.ts";
import { handleAt } from "../grip.ts";
import { partsWithin } from "../marquee.ts";
import type { Px } from "../projection.ts";
import { pinchedFrom } from "../zoom.ts";
import { reachOf, tremble } from "./hand.ts";
import type { Hands, Move } from "./hands.ts";
import { ghost, moveStencil, pullTo } from "./place.ts";

export function move(hands: Hands, event: PointerEvent): void {
  const at = hands.px(event);
  const touch = event.pointerType === "touch";
  hands.last = { at, alt: event.altKey, touch };
  if (hands.down.has(event.pointerId)) hands.down.set(event.pointerId, at);
  // Let go where nobody told us: over another window.
  if (event.pointerType === "mouse" && event.buttons === 0 && hands.holds(event.pointerId))
    return hands.lose(event.pointerId);
  if (hands.stencil && event.pointerId === hands.stencil.pointer) return moveStencil(hands, at, touch);
  // Over a slip or a word the sheet below does not answer.
  if (hands.hand.does === "nothing" && !(event.target instanceof Node && hands.element.contains(event.target))) return;
  inNextFrame(hands, { pointer: event.pointerId, at, alt: event.altKey, touch, shift: event.shiftKey });
}

function inNextFrame(hands: Hands, move: Move): void {
  hands.later = move;
  hands.frame ||= requestAnimationFrame(() => catchUp(hands));
}

/** The last move once more, for what has changed under the pointer; one that waits comes by itself. */
function onceMore(hands: Hands): void {
  if (hands.last && !hands.later) inNextFrame(hands, { pointer: hands.pointer(), ...hands.last, shift: false });
}

/** Whether what is shown hangs on where the pointer is on the site: something is held, or a stencil waits under it. */
export function goesByPlace({ hand, shown, desk }: Hands): boolean {
  if (hand.does === "nothing") return desk.get().view.tool !== null && shown.at !== null;
  return hand.does === "drag" || hand.does === "place" || hand.does === "pull";
}

/** The sheet was moved or zoomed below, by a wheel or by a key: what is held stays under the hand. */
export function sheetMoved(hands: Hands): void {
  if (goesByPlace(hands)) onceMore(hands);
}

/** What a stencil shows under the pointer is of one drawing: where that or the stencil is another, by a key or by another
 * drawing that is opened, it is shown anew, or goes. */
export function deskChanged(hands: Hands): void {
  const { section, view } = hands.desk.get();
  if (section === hands.madeFor.section && view.tool === hands.madeFor.tool) return;
  hands.madeFor = { section, tool: view.tool };
  // A pipe whose first end is set down waits for its second only as long as the pipe is what the hand holds.
  if (hands.hand.does === "pull" && view.tool !== "pipe") hands.cancel();
  if (hands.hand.does !== "nothing" || !(hands.ghosted || hands.shown.at)) return;
  hands.hideGhost();
  if (view.tool) onceMore(hands);
}

/** A pointer may tell its moves several times a frame; the last one counts. */
export function catchUp(hands: Hands): void {
  hands.frame = 0;
  const move = hands.later;
  hands.later = null;
  if (move) goOn(hands, move.pointer, move.at, move.alt, move.touch, move.shift);
}

export function goOn(hands: Hands, pointer: number, at: Px, alt: boolean, touch: boolean, shift: boolean): void {
  // A step taken back while the hand is busy took the ground from under the drag: let go.
  if ("section" in hands.hand && hands.hand.section !== hands.desk.get().section) {
    hands.cancel();
    return;
  }
  switch (hands.hand.does) {
    case "nothing":
      return hover(hands, at, touch, alt);
    case "press": {
      if (
        pointer !== hands.hand.pointer ||
        Math.hypot(at[0] - hands.hand.at[0], at[1] - hands.hand.at[1]) < (touch ? tremble.touch : tremble.mouse)
      )
        return;
      if (hands.hand.grip)
        hands.hand = {
          does: "drag",
          pointer,
          from: hands.site(hands.hand.at),
          grip: hands.hand.grip,
          section: hands.hand.section,
        };
      else if (touch)
        hands.hand = {
          does: "pan",
          pointer,
          from: hands.hand.at,
          camera: hands.context.projection().camera,
          back: null,
        };
      else
        hands.hand = {
          does: "marquee",
          pointer,
          from: hands.hand.at,
          kept: shift ? hands.desk.get().view.selection : new Set(),
        };
      return goOn(hands, pointer, at, alt, touch, shift);
    }
    case "drag": {
      if (pointer !== hands.hand.pointer) return;
      const dragged = drag(
        {
          section: hands.hand.section,
          grip: hands.hand.grip,
          selection: hands.desk.get().view.selection,
          at: hands.hand.from,
        },
        hands.wish(at, touch, alt),
      );
      hands.desk.showPreview(dragged.changed);
      hands.show({ guides: dragged.guides, figure: dragged.figure, at, cursor: "grabbing" });
      return;
    }
    case "marquee":
      if (pointer !== hands.hand.pointer) return;
      hands.desk.choose([
        ...hands.hand.kept,
        ...partsWithin(hands.context.nodes(), hands.context.projection(), hands.hand.from, at),
      ]);
      return hands.show({ marquee: [hands.hand.from, at] });
    case "pan": {
      if (pointer !== hands.hand.pointer) return;
      const { camera, from } = hands.hand;
      return hands.look({
        ...camera,
        x0: camera.x0 - (at[0] - from[0]) / camera.scale,
        z0: camera.z0 + (at[1] - from[1]) / camera.scale,
      });
    }
    case "pinch":
      return pinch(hands);
    case "place":
      if (pointer === hands.hand.pointer) ghost(hands, at, touch, alt);
      return;
    case "pull":
      return pullTo(hands, at, alt, touch);
  }
}

function pinch(hands: Hands): void {
  if (hands.hand.does !== "pinch") return;
  const a = hands.down.get(hands.hand.pointers[0]);
  const b = hands.down.get(hands.hand.pointers[1]);
  if (!a || !b) return;
  hands.look(pinchedFrom(hands.hand, a, b));
}

export function hover(hands: Hands, at: Px, touch: boolean, loose = false): void {
  if (touch) return;
  const { section, view } = hands.desk.get();
  if (hands.spaceHeld) return hands.show({ cursor: "grab", hover: null });
  if (view.tool) {
    ghost(hands, at, touch, loose);
    const catches = view.tool === "pipe" && hands.shown.at !== null;
    return hands.show({ cursor: "crosshair", hover: catches ? hands.met(at, 8) : null });
  }
  hands.hideGhost();
  const handle = handleAt(section, view.selection, hands.site(at), hands.metres(reachOf(false)), hands.metres(1));
  if (handle) {
    const cursor = handle.look === "sideways" ? "ew-resize" : handle.look === "upDown" ? "ns-resize" : "move";
    return hands.show({ cursor, hover: handle.grip.part });
  }
  const part = hands.met(at, 5);
  if (part !== hands.shown.hover || hands.shown.cursor !== (part ? "pointer" : "default"))
    hands.show({ cursor: part ? "pointer" : "default", hover: part });
}
