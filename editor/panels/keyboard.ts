/** Keys on the sheet. Inside a field the keys are the field's own, Escape apart. */
import { isDevice } from "../../hydraulics/index.ts";
import { keepTyped } from "../canvas/gesture/keepTyped.ts";
import { copyParts, cutParts, duplicateParts } from "../state/actions/copyParts.ts";
import { moveParts } from "../state/actions/moveParts.ts";
import { pasteParts } from "../state/actions/pasteParts.ts";
import { removeParts } from "../state/actions/removeParts.ts";
import { slideDevice } from "../state/actions/slideDevice.ts";
import { copied } from "../state/clipboard.ts";
import type { Desk } from "../state/desk.ts";
import { inOrder } from "../state/inOrder.ts";
import { backToRunning } from "../state/view.ts";
import type { Commands } from "./commands.ts";
import { onToNextStop } from "./menu/onToNextStop.ts";
import { setDown } from "./menu/setDown.ts";
import { stencils } from "./Stencils.tsx";

export interface KeyContext {
  readonly desk: Desk;
  readonly commands: Commands;
  /** leaves what the hand is doing; true where it did something */
  readonly cancelHand: () => boolean;
  /** opens the menu of what is chosen */
  readonly openMenu: () => void;
}

export function listenToKeys({ desk, commands, cancelHand, openMenu }: KeyContext): () => void {
  const onKey = (event: KeyboardEvent): void => {
    const typing = event.target instanceof HTMLElement && event.target.closest("input, textarea, select") !== null;
    if (event.key === "Escape") return leave(event, typing);
    if (event.ctrlKey || event.metaKey) return withControl(event, typing);
    if (typing || event.altKey) return;
    if (event.key === "ContextMenu" || (event.key === "F10" && event.shiftKey)) {
      event.preventDefault();
      return openMenu();
    }
    const { view, section } = desk.get();
    if (event.key === "Delete" || event.key === "Backspace") {
      if (view.selection.size === 0) return;
      event.preventDefault();
      return onToNextStop(desk, () => void desk.apply(removeParts(section, view.selection)));
    }
    if (event.key.startsWith("Arrow")) return nudge(event);
    if (event.key === "PageUp" || event.key === "PageDown") return stride(event);
    if (event.key === "?") return desk.look((v) => ({ ...v, slip: v.slip === "keys" ? null : "keys" }));
    if (event.key === "n" || event.key === "d") {
      // The letter must not land in the field that the slip puts the cursor in.
      event.preventDefault();
      const slip = event.key === "n" ? "begin" : "drawings";
      return desk.look((v) => ({ ...v, slip: v.slip === slip ? null : slip }));
    }
    if (event.key === "0") return commands.fit();
    if (event.key === "+" || event.key === "=") return commands.zoom(1.25);
    if (event.key === "-") return commands.zoom(0.8);
    const stencil = stencils.find(({ letter }) => letter === event.key);
    if (stencil) desk.look((v) => ({ ...v, tool: v.tool === stencil.tool ? null : stencil.tool }));
  };

  const stride = (event: KeyboardEvent): void => {
    // On a slip they scroll it.
    if (event.target instanceof HTMLElement && event.target.closest(".slip, [role=slider], [role=menu]")) return;
    event.preventDefault();
    const by = event.key === "PageDown" ? 1 : -1;
    commands.stride(event.shiftKey ? [by, 0] : [0, by]);
  };

  const leave = (event: KeyboardEvent, typing: boolean): void => {
    if (cancelHand()) return;
    const { view } = desk.get();
    if (typing && event.target instanceof HTMLElement) return event.target.blur();
    if (desk.get().message) return desk.say(null);
    if (view.tool) return desk.look((v) => ({ ...v, tool: null }));
    if (view.slip) return desk.look((v) => ({ ...v, slip: null }));
    if (view.selection.size > 0) return desk.choose([]);
    if (view.moment !== null || view.played !== null) desk.look(backToRunning);
  };

  const withControl = (event: KeyboardEvent, typing: boolean): void => {
    const key = event.key.toLowerCase();
    const { view, section } = desk.get();
    if (key === "s") {
      event.preventDefault();
      keepTyped();
      return event.shiftKey ? commands.saveAs() : commands.save();
    }
    if (key === "o") {
      event.preventDefault();
      keepTyped();
      return commands.open();
    }
    if ((key === "z" || key === "y") && !hasOwnSteps(event.target)) {
      event.preventDefault();
      // In the middle of a drag a step back leaves the drag, and nothing else.
      if (key === "z" && !event.shiftKey && desk.get().preview !== null && cancelHand()) return;
      return key === "y" || event.shiftKey ? desk.redo() : desk.undo();
    }
    if (typing) return;
    if (key === "a") {
      event.preventDefault();
      return desk.choose(inOrder(section).map((part) => part.id));
    }
    if (key === "d" && view.selection.size > 0) {
      event.preventDefault();
      return setDown(desk, duplicateParts(section, view.selection));
    }
  };

  const nudge = (event: KeyboardEvent): void => {
    // On a slip's paper, and on a row of pictures, they scroll it.
    if (event.target instanceof HTMLElement && event.target.closest("[role=slider]")) return;
    if (event.target instanceof HTMLElement && event.target.matches(".paper, .pictures")) return;
    const { view, section } = desk.get();
    if (view.selection.size === 0) return;
    event.preventDefault();
    const fine = view.units === "metric" ? 0.01 : 0.0127;
    const by = event.shiftKey ? (view.units === "metric" ? 0.1 : 0.1524) : fine;
    const dx = event.key === "ArrowRight" ? by : event.key === "ArrowLeft" ? -by : 0;
    const dz = event.key === "ArrowUp" ? by : event.key === "ArrowDown" ? -by : 0;
    const hold = `nudge ${[...view.selection].join(" ")}`;
    const [id] = view.selection;
    const part = id === undefined || view.selection.size > 1 ? undefined : section.parts.get(id);
    if (isDevice(part)) {
      const slid = slideDevice(section, part.id, part.on.pipe, part.on.at + (dx || dz));
      desk.apply(slid.ok && slid.edit ? { ...slid, edit: { ...slid.edit, hold } } : slid);
      return;
    }
    desk.apply(moveParts(section, view.selection, dx, dz, { hold }));
  };

  const onClipboard = (event: ClipboardEvent): void => {
    if (event.target instanceof HTMLElement && event.target.closest("input, textarea")) return;
    const { view, section } = desk.get();
    if (event.type === "paste") {
      const text = event.clipboardData?.getData("text/plain") ?? "";
      if (text === "") return;
      event.preventDefault();
      return setDown(desk, pasteParts(section, text, 0.2, 0));
    }
    if (view.selection.size === 0) return;
    event.preventDefault();
    const cut = event.type === "cut" ? cutParts(section, view.selection) : null;
    if (cut) onToNextStop(desk, () => void desk.apply(cut.changed));
    const text = cut ? cut.text : copyParts(section, view.selection);
    if (text === null) return;
    copied(text);
    event.clipboardData?.setData("text/plain", text);
  };

  window.addEventListener("keydown", onKey);
  const clipboard = ["copy", "cut", "paste"] as const;
  for (const name of clipboard) document.addEventListener(name, onClipboard);
  return () => {
    window.removeEventListener("keydown", onKey);
    for (const name of clipboard) document.removeEventListener(name, onClipboard);
  };
}

/** Whether a step back is the field's own: where something is being typed. A field that was left as it stood, or a choice
 * just made, has none, and the eye is on the drawing. */
const hasOwnSteps = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('input:not([data-typed="no"], [type=checkbox]), textarea') !== null;
