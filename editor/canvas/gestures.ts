/** Pointers, wheel and double clicks on the sheet, told as one machine: what the hand is doing now is one
 * value of `Hand`, and every way out of it (up, Escape, a lost pointer, a step taken back meanwhile) either
 * keeps the preview or drops it. */
import type { PartId, Point, Section } from "../../hydraulics/index.ts";
import { ownerOf } from "../scene/inFault.ts";
import type { SceneNode } from "../scene/node.ts";
import { addBend } from "../state/actions/addBend.ts";
import { bodyAt } from "../state/actions/newPart.ts";
import { placePipe } from "../state/actions/placePipe.ts";
import { removeBend } from "../state/actions/removeBend.ts";
import type { Desk } from "../state/desk.ts";
import { type Camera, type Tool, toggle } from "../state/view.ts";
import { type Dragged, drag } from "./drag.ts";
import { type Grip, gripOn, handleAt } from "./grip.ts";
import { partAt } from "./hit.ts";
import { partsWithin } from "./marquee.ts";
import { placeTool } from "./placing.ts";
import type { Projection, Px } from "./projection.ts";
import { type Guide, snapStep } from "./snap.ts";
import { pinchedFrom, withinReason, zoomedAt } from "./zoom.ts";

/** What is shown while the hand is busy, beside the preview itself. */
export interface HandShow {
  readonly guides: readonly Guide[];
  readonly figure: Dragged["figure"];
  readonly marquee: readonly [Px, Px] | null;
  readonly cursor: string;
  /** the pointer, px: where the tag with the live figures stands */
  readonly at: Px | null;
  readonly hover: PartId | null;
  /** the part that was pressed last, and where: its slip's leader leads there */
  readonly pressed: { readonly part: PartId; readonly at: Point } | null;
}

export const restingHand: HandShow = {
  guides: [],
  figure: null,
  marquee: null,
  cursor: "default",
  at: null,
  hover: null,
  pressed: null,
};

export interface GestureContext {
  readonly desk: Desk;
  readonly projection: () => Projection;
  readonly nodes: () => readonly SceneNode[];
  readonly show: (show: HandShow) => void;
}

type Hand =
  | { readonly does: "nothing" }
  | {
      readonly does: "press";
      readonly pointer: number;
      readonly at: Px;
      readonly grip: Grip | null;
      readonly added: PartId | null;
      readonly section: Section;
      readonly touch: boolean;
    }
  | {
      readonly does: "drag";
      readonly pointer: number;
      /** where on the site it was taken hold of: the sheet may be moved or zoomed under the hand */
      readonly from: Point;
      readonly grip: Grip;
      readonly section: Section;
    }
  | { readonly does: "marquee"; readonly pointer: number; readonly from: Px; readonly kept: ReadonlySet<PartId> }
  | { readonly does: "pan"; readonly pointer: number; readonly from: Px; readonly camera: Camera }
  | {
      readonly does: "pinch";
      readonly pointers: readonly [number, number];
      readonly camera: Camera;
      readonly middle: Px;
      readonly span: number;
    }
  | {
      readonly does: "place";
      readonly pointer: number;
      readonly tool: Tool;
      readonly at: Px;
      readonly section: Section;
    }
  | { readonly does: "pull"; readonly pointer: number | null; readonly from: Px; readonly section: Section };

/** px that a press may tremble before it is a drag; fingers tremble more. */
const tremble = { mouse: 4, touch: 9 };
const reachOf = (touch: boolean): number => (touch ? 18 : 9);

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
  detach(): void;
}

export function attachGestures(element: HTMLElement, context: GestureContext): Gestures {
  const { desk } = context;
  let hand: Hand = { does: "nothing" };
  let shown: HandShow = restingHand;
  let spaceHeld = false;
  /** where the pointer is, for a key pressed in mid drag */
  let last: { at: Px; alt: boolean; touch: boolean } | null = null;
  const down = new Map<number, Px>();
  let later: { pointer: number; at: Px; alt: boolean; touch: boolean; shift: boolean } | null = null;
  let frame = 0;
  /** a stencil that is pressed but has not left the row yet */
  let stencil: { tool: Tool; pointer: number; at: Px } | null = null;

  const show = (next: Partial<HandShow>): void => {
    shown = { ...shown, ...next };
    context.show(shown);
  };
  const rest = (): void => {
    hand = { does: "nothing" };
    show({ guides: [], figure: null, marquee: null, at: null });
  };
  const pxOf = (event: { clientX: number; clientY: number }): Px => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const siteOf = (at: Px): Point => context.projection().site(at);
  const metres = (px: number): number => px / context.projection().pxPerMetre;
  const grid = () => ({ step: snapStep(context.projection().pxPerMetre, desk.get().view.units), reach: metres(7) });

  /** The part under the pointer. A body is met all over, its air included. */
  const met = (at: Px, reach: number): PartId | null =>
    drawnPart(partAt(context.nodes(), context.projection(), at, reach)) ??
    bodyAt(desk.get().section, siteOf(at))?.id ??
    null;

  /** In a fault that is played there are parts besides the drawing's: a plug, a piece of a line. */
  const drawnPart = (id: PartId | null): PartId | null => {
    const owner = id && ownerOf(id);
    return owner && desk.get().section.parts.has(owner) ? owner : null;
  };

  const cancel = (): boolean => {
    const busy = hand.does !== "nothing" || stencil !== null;
    stencil = null;
    later = null;
    desk.dropPreview();
    rest();
    return busy;
  };

  // --- what a press begins -------------------------------------------------------------------------------
  const press = (event: PointerEvent): void => {
    const at = pxOf(event);
    const touch = event.pointerType === "touch";
    catchUp();
    down.set(event.pointerId, at);
    if (down.size === 2) return beginPinch();
    if (down.size > 2 || (hand.does !== "nothing" && hand.does !== "pull")) return;
    element.setPointerCapture(event.pointerId);
    if (event.button === 1 || spaceHeld) {
      hand = { does: "pan", pointer: event.pointerId, from: at, camera: context.projection().camera };
      show({ cursor: "grabbing" });
      return;
    }
    if (event.button !== 0) return;
    const { section, view } = desk.get();
    if (hand.does === "pull") {
      hand = { ...hand, pointer: event.pointerId };
      return;
    }
    if (view.tool === "pipe") {
      hand = { does: "pull", pointer: event.pointerId, from: at, section };
      return;
    }
    if (view.tool) {
      hand = { does: "place", pointer: event.pointerId, tool: view.tool, at, section };
      ghost(at, touch, event.altKey);
      return;
    }
    const site = siteOf(at);
    const reach = reachOf(touch);
    const handle = handleAt(section, view.selection, site, metres(reach));
    const part = handle ? handle.grip.part : met(at, touch ? 12 : 5);
    let added: PartId | null = null;
    show({ pressed: part ? { part, at: site } : null });
    if (part && (event.shiftKey || event.ctrlKey || event.metaKey) && !handle) {
      desk.look((v) => toggle(v, part));
      added = part;
    } else if (part && !view.selection.has(part)) {
      desk.choose([part]);
      added = part;
    }
    hand = {
      does: "press",
      pointer: event.pointerId,
      at,
      grip: handle ? handle.grip : part ? gripOf(section, part, site) : null,
      added,
      section,
      touch,
    };
  };

  const gripOf = (section: Section, part: PartId, site: Point): Grip => {
    // Several chosen parts move as one, whatever of them is held.
    const { selection } = desk.get().view;
    if (selection.size > 1 && selection.has(part)) return { of: "part", part };
    return gripOn(section, part, site);
  };

  const beginPinch = (): void => {
    // A second finger means the sheet, not the part under the first one.
    desk.dropPreview();
    const [[idA, a], [idB, b]] = [...down.entries()] as [[number, Px], [number, Px]];
    hand = {
      does: "pinch",
      pointers: [idA, idB],
      camera: context.projection().camera,
      middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2],
      span: Math.hypot(a[0] - b[0], a[1] - b[1]),
    };
    show({ guides: [], figure: null, marquee: null, at: null });
  };

  // --- what a move does ----------------------------------------------------------------------------------
  const move = (event: PointerEvent): void => {
    const at = pxOf(event);
    const touch = event.pointerType === "touch";
    last = { at, alt: event.altKey, touch };
    if (down.has(event.pointerId)) down.set(event.pointerId, at);
    // Let go where nobody told us: over another window.
    if (event.pointerType === "mouse" && event.buttons === 0 && down.has(event.pointerId)) return lost(event);
    if (stencil && event.pointerId === stencil.pointer) return moveStencil(at, touch);
    // Over a slip or a word the sheet below does not answer.
    if (hand.does === "nothing" && !(event.target instanceof Node && element.contains(event.target))) return;
    later = { pointer: event.pointerId, at, alt: event.altKey, touch, shift: event.shiftKey };
    frame ||= requestAnimationFrame(catchUp);
  };

  /** A pointer may tell its moves several times a frame; the last one counts. */
  const catchUp = (): void => {
    frame = 0;
    const move = later;
    later = null;
    if (move) goOn(move.pointer, move.at, move.alt, move.touch, move.shift);
  };

  const goOn = (pointer: number, at: Px, alt: boolean, touch: boolean, shift: boolean): void => {
    // A step taken back while the hand is busy took the ground from under the drag: let go.
    if ("section" in hand && hand.section !== desk.get().section) {
      cancel();
      return;
    }
    switch (hand.does) {
      case "nothing":
        return hover(at, touch, alt);
      case "press": {
        if (
          pointer !== hand.pointer ||
          Math.hypot(at[0] - hand.at[0], at[1] - hand.at[1]) < (touch ? tremble.touch : tremble.mouse)
        )
          return;
        if (hand.grip) hand = { does: "drag", pointer, from: siteOf(hand.at), grip: hand.grip, section: hand.section };
        else if (touch) hand = { does: "pan", pointer, from: hand.at, camera: context.projection().camera };
        else hand = { does: "marquee", pointer, from: hand.at, kept: shift ? desk.get().view.selection : new Set() };
        return goOn(pointer, at, alt, touch, shift);
      }
      case "drag": {
        if (pointer !== hand.pointer) return;
        const dragged = drag(
          { section: hand.section, grip: hand.grip, selection: desk.get().view.selection, at: hand.from },
          { at: siteOf(at), grid: grid(), reach: metres(reachOf(touch)), loose: alt },
        );
        desk.showPreview(dragged.changed);
        show({ guides: dragged.guides, figure: dragged.figure, at, cursor: "grabbing" });
        return;
      }
      case "marquee":
        if (pointer !== hand.pointer) return;
        desk.choose([...hand.kept, ...partsWithin(context.nodes(), context.projection(), hand.from, at)]);
        return show({ marquee: [hand.from, at] });
      case "pan": {
        if (pointer !== hand.pointer) return;
        const { camera, from } = hand;
        return look({
          ...camera,
          x0: camera.x0 - (at[0] - from[0]) / camera.scale,
          z0: camera.z0 + (at[1] - from[1]) / camera.scale,
        });
      }
      case "pinch":
        return pinch();
      case "place":
        if (pointer === hand.pointer) ghost(at, touch, alt);
        return;
      case "pull":
        return pullTo(at, alt, touch);
    }
  };

  const hover = (at: Px, touch: boolean, loose = false): void => {
    if (touch) return;
    const { section, view } = desk.get();
    if (spaceHeld) return show({ cursor: "grab", hover: null });
    if (view.tool && view.tool !== "pipe") {
      ghost(at, touch, loose);
      return show({ cursor: "crosshair", hover: null });
    }
    if (view.tool === "pipe") return show({ cursor: "crosshair", hover: met(at, 8) });
    const handle = handleAt(section, view.selection, siteOf(at), metres(reachOf(false)));
    if (handle) {
      const cursor = handle.look === "sideways" ? "ew-resize" : handle.look === "upDown" ? "ns-resize" : "move";
      return show({ cursor, hover: handle.grip.part });
    }
    const part = met(at, 5);
    if (part !== shown.hover || shown.cursor !== (part ? "pointer" : "default"))
      show({ cursor: part ? "pointer" : "default", hover: part });
  };

  const ghost = (at: Px, touch: boolean, loose: boolean): void => {
    const { section, view } = desk.get();
    const tool = hand.does === "place" ? hand.tool : view.tool;
    if (!tool || tool === "pipe") return;
    const changed = placeTool(section, tool, snapped(at, loose), metres(reachOf(touch)));
    if (changed.ok) {
      desk.showPreview(changed);
      show({ at });
    } else {
      desk.dropPreview();
      show({ at: null });
    }
  };

  const snapped = (at: Px, loose: boolean): Point => {
    const [x, z] = siteOf(at);
    if (loose) return [x, z];
    const { step } = grid();
    return [Math.round(x / step) * step, Math.round(z / step) * step];
  };

  const pullTo = (at: Px, straight: boolean, touch: boolean): void => {
    if (hand.does !== "pull") return;
    if (Math.hypot(at[0] - hand.from[0], at[1] - hand.from[1]) < 8) return desk.dropPreview();
    const changed = placePipe(hand.section, {
      from: catchPoint(hand.from),
      to: catchPoint(at),
      reach: metres(reachOf(touch) * 1.4),
      straight,
    });
    if (changed.ok) desk.showPreview(changed);
    show({ at, cursor: "crosshair" });
  };

  const catchPoint = (at: Px): Point => {
    const { step } = grid();
    const [x, z] = siteOf(at);
    return [Math.round(x / step) * step, Math.round(z / step) * step];
  };

  const look = (camera: Camera): void => desk.look((view) => ({ ...view, camera }));

  const pinch = (): void => {
    if (hand.does !== "pinch") return;
    const a = down.get(hand.pointers[0]);
    const b = down.get(hand.pointers[1]);
    if (!a || !b) return;
    look(pinchedFrom(hand, a, b));
  };

  // --- how it ends ---------------------------------------------------------------------------------------
  const up = (event: PointerEvent): void => {
    const at = pxOf(event);
    catchUp();
    down.delete(event.pointerId);
    if (stencil && event.pointerId === stencil.pointer) {
      stencil = null;
      return;
    }
    const touch = event.pointerType === "touch";
    switch (hand.does) {
      case "press":
        if (event.pointerId !== hand.pointer) return;
        if (!hand.grip && !event.shiftKey) desk.choose([]);
        else if (
          hand.grip &&
          !hand.added &&
          desk.get().view.selection.size > 1 &&
          !event.shiftKey &&
          !event.ctrlKey &&
          !event.metaKey
        )
          desk.choose([hand.grip.part]);
        rest();
        return hover(at, touch);
      case "drag":
        if (event.pointerId !== hand.pointer) return;
        if (hand.section !== desk.get().section) cancel();
        desk.keepPreview();
        rest();
        return hover(at, touch);
      case "marquee":
      case "pan":
        if (event.pointerId === hand.pointer) {
          rest();
          show({ cursor: "default" });
        }
        return;
      case "pinch":
        if (hand.pointers.includes(event.pointerId)) rest();
        return;
      case "place": {
        if (event.pointerId !== hand.pointer) return;
        const { tool, section } = hand;
        rest();
        desk.dropPreview();
        if (tool === "pipe" || section !== desk.get().section || !isOverSheet(event)) return;
        setDown(section, (now) => placeTool(now, tool, snapped(at, event.altKey), metres(reachOf(touch))));
        return;
      }
      case "pull": {
        if (event.pointerId !== hand.pointer) return;
        const { from, section } = hand;
        if (Math.hypot(at[0] - from[0], at[1] - from[1]) < 8) {
          // A click: the far end follows the pointer and the next click sets it down.
          hand = { ...hand, pointer: null };
          return;
        }
        rest();
        desk.dropPreview();
        setDown(section, (now) =>
          placePipe(now, {
            from: catchPoint(from),
            to: catchPoint(at),
            reach: metres(reachOf(touch) * 1.4),
            straight: event.altKey,
          }),
        );
        return;
      }
      default:
        return;
    }
  };

  const isOverSheet = (event: PointerEvent): boolean => {
    const over = document.elementFromPoint(event.clientX, event.clientY);
    return over !== null && (element === over || element.contains(over));
  };

  const setDown = (section: Section, place: (section: Section) => ReturnType<typeof placeTool>): void => {
    const changed = place(section);
    if (!desk.apply(changed) || !changed.ok) return;
    const fresh = [...changed.section.parts.keys()].filter((id) => !section.parts.has(id));
    desk.look((view) => ({ ...view, tool: null, selection: new Set(fresh) }));
    show({ cursor: "default" });
  };

  const moveStencil = (at: Px, touch: boolean): void => {
    if (!stencil || Math.hypot(at[0] - stencil.at[0], at[1] - stencil.at[1]) < 12) return;
    const { tool, pointer } = stencil;
    stencil = null;
    if (tool === "pipe") return;
    desk.look((view) => ({ ...view, tool: null }));
    hand = { does: "place", pointer, tool, at, section: desk.get().section };
    ghost(at, touch, false);
  };

  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    // The sheet is in the hand already.
    if (hand.does === "pan" || hand.does === "pinch") return;
    const { camera } = context.projection();
    const lines = event.deltaMode === 1 ? 24 : 1;
    if (event.ctrlKey || event.metaKey) {
      const at = pxOf(event);
      const scale = withinReason(camera.scale * Math.exp(-Math.max(-60, Math.min(60, event.deltaY * lines)) * 0.008));
      look(zoomedAt(camera, at, scale));
    } else {
      const [dx, dy] = event.shiftKey && event.deltaX === 0 ? [event.deltaY, 0] : [event.deltaX, event.deltaY];
      look({ ...camera, x0: camera.x0 + (dx * lines) / camera.scale, z0: camera.z0 - (dy * lines) / camera.scale });
    }
    // What is held stays under the hand while the sheet goes on below.
    if (hand.does === "drag" && last) {
      later = { pointer: hand.pointer, at: last.at, alt: event.altKey, touch: last.touch, shift: event.shiftKey };
      frame ||= requestAnimationFrame(catchUp);
    }
  };

  const doubleClick = (event: MouseEvent): void => {
    const at = pxOf(event);
    const { section, view } = desk.get();
    if (view.tool) return;
    const site = siteOf(at);
    const handle = handleAt(section, view.selection, site, metres(9));
    if (handle?.grip.of === "bend") {
      desk.apply(removeBend(section, handle.grip.part, handle.grip.index));
      return;
    }
    const part = met(at, 5);
    if (part && section.parts.get(part)?.kind === "pipe") desk.apply(addBend(section, part, site));
  };

  const lost = (event: PointerEvent): void => {
    down.delete(event.pointerId);
    if ("pointer" in hand && hand.pointer === event.pointerId) cancel();
    if (hand.does === "pinch") rest();
  };

  const left = (): void => {
    const { view } = desk.get();
    if (hand.does === "nothing" && view.tool) desk.dropPreview();
    show({ at: null, hover: null });
  };

  const key = (event: KeyboardEvent): void => {
    const typing =
      event.target instanceof HTMLElement &&
      event.target.closest("input, textarea, select, button, [role=slider]") !== null;
    if (event.key === " " && !typing) {
      spaceHeld = event.type === "keydown";
      event.preventDefault();
      show({ cursor: spaceHeld ? "grab" : "default" });
    }
    if (event.key === "Alt" && last && (hand.does === "drag" || hand.does === "pull")) {
      event.preventDefault();
      goOn(
        "pointer" in hand && hand.pointer !== null ? hand.pointer : -1,
        last.at,
        event.type === "keydown",
        last.touch,
        false,
      );
    }
  };

  /** Keys that are let go in another window are never told. */
  const away = (): void => {
    spaceHeld = false;
  };

  // A long press of a finger is a drag about to begin, not a wish for the browser's own menu.
  const noMenu = (event: Event): void => event.preventDefault();
  element.addEventListener("contextmenu", noMenu);
  element.addEventListener("pointerdown", press);
  window.addEventListener("pointermove", move);
  window.addEventListener("pointerup", up);
  window.addEventListener("pointercancel", lost);
  element.addEventListener("pointerleave", left);
  element.addEventListener("wheel", wheel, { passive: false });
  element.addEventListener("dblclick", doubleClick);
  window.addEventListener("keydown", key);
  window.addEventListener("keyup", key);
  window.addEventListener("blur", away);

  return {
    cancel,
    pull(tool, event) {
      if (tool === "pipe") return;
      stencil = { tool, pointer: event.pointerId, at: pxOf(event) };
    },
    detach() {
      cancelAnimationFrame(frame);
      element.removeEventListener("contextmenu", noMenu);
      element.removeEventListener("pointerdown", press);
      window.removeEventListener("pointermove", move);
      window.removeEventListener("pointerup", up);
      window.removeEventListener("pointercancel", lost);
      element.removeEventListener("pointerleave", left);
      element.removeEventListener("wheel", wheel);
      element.removeEventListener("dblclick", doubleClick);
      window.removeEventListener("keydown", key);
      window.removeEventListener("keyup", key);
      window.removeEventListener("blur", away);
    },
  };
}
