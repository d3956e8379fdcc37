/** What a press on the sheet begins. */
import { nearestOnLine, type PartId, type Point, pipeLine, type Section } from "../../../hydraulics/index.ts";
import { toggle } from "../../state/view.ts";
import { type Grip, gripOn, handleAt } from "../grip.ts";
import type { Px } from "../projection.ts";
import { reachOf, unmarked, waitingIn } from "./hand.ts";
import type { Hands } from "./hands.ts";
import { keepTyped } from "./keepTyped.ts";
import { catchUp } from "./move.ts";
import { beginPull, ghost } from "./place.ts";

export function press(hands: Hands, event: PointerEvent): void {
  const at = hands.px(event);
  const touch = event.pointerType === "touch";
  keepTyped();
  catchUp(hands);
  hands.down.set(event.pointerId, at);
  if (hands.down.size === 2) return beginPinch(hands);
  if (hands.down.size > 2 || (hands.hand.does !== "nothing" && hands.hand.does !== "pull")) return;
  hands.element.setPointerCapture(event.pointerId);
  if (event.button === 1 || hands.spaceHeld) {
    if (hands.spaceHeld) keepUnpressed();
    const { camera } = hands.context.projection();
    hands.desk.dropPreview();
    hands.hand = { does: "pan", pointer: event.pointerId, from: at, camera, back: waitingIn(hands.hand) };
    hands.show({ ...unmarked, cursor: "grabbing" });
    return;
  }
  if (event.button !== 0) return;
  const { section, view } = hands.desk.get();
  if (hands.hand.does === "pull") {
    hands.hand = { ...hands.hand, pointer: event.pointerId };
    return;
  }
  if (view.tool === "pipe") {
    if (hands.isOverField(at)) beginPull(hands, at, touch, event.altKey, event.pointerId);
    return;
  }
  if (view.tool) {
    hands.hand = { does: "place", pointer: event.pointerId, tool: view.tool, section };
    ghost(hands, at, touch, event.altKey);
    return;
  }
  const site = hands.site(at);
  const reach = reachOf(touch);
  const handle = handleAt(section, view.selection, site, hands.metres(reach), hands.metres(1));
  const part = handle ? handle.grip.part : hands.met(at, touch ? 12 : 5);
  let added: PartId | null = null;
  hands.show({ pressed: part ? { part, at: site } : null });
  if (part && (event.shiftKey || event.ctrlKey || event.metaKey) && !handle) {
    hands.desk.look((v) => toggle(v, part));
    added = part;
  } else if (part && !view.selection.has(part)) {
    hands.desk.choose([part]);
    added = part;
  }
  hands.hand = {
    does: "press",
    pointer: event.pointerId,
    at,
    part,
    grip: handle ? handle.grip : part ? gripOf(hands, section, part, site, hands.metres(reach)) : null,
    added,
    section,
    touch,
  };
}

function gripOf(hands: Hands, section: Section, part: PartId, site: Point, reach: number): Grip | null {
  // Several chosen parts move as one, whatever of them is held.
  const { selection } = hands.desk.get().view;
  if (selection.size > 1 && selection.has(part)) return { of: "part", part };
  const pipe = section.parts.get(part);
  // A pipe's figures may lie far from it: pressing them chooses it, and pulling them says no place to move it to.
  if (pipe?.kind === "pipe" && nearestOnLine(pipeLine(section, pipe), site).distance > reach + pipe.bore / 2)
    return null;
  return gripOn(section, part, site);
}

/** The space bar that takes hold of the sheet must not press what has the focus when it is let go. */
function keepUnpressed(): void {
  const focused = document.activeElement;
  if (focused instanceof HTMLElement && focused !== document.body) focused.blur();
}

function beginPinch(hands: Hands): void {
  // A second finger means the sheet, not the part under the first one.
  hands.desk.dropPreview();
  const [[idA, a], [idB, b]] = [...hands.down.entries()] as [[number, Px], [number, Px]];
  hands.hand = {
    does: "pinch",
    pointers: [idA, idB],
    camera: hands.context.projection().camera,
    middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2],
    span: Math.hypot(a[0] - b[0], a[1] - b[1]),
    back: waitingIn(hands.hand),
  };
  hands.show({ ...unmarked, marquee: null });
}
