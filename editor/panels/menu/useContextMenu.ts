/** How a menu comes: the right button, a finger that rests, the menu key or Shift F10. */
import { type RefObject, useCallback, useEffect, useState } from "react";
import { anchorOf } from "../../canvas/anchorOf.ts";
import { partAt } from "../../canvas/hit.ts";
import type { Projection, Px } from "../../canvas/projection.ts";
import type { SceneNode } from "../../scene/node.ts";
import { partName } from "../../sheet/partName.ts";
import { bodyAt } from "../../state/actions/newPart.ts";
import type { Desk } from "../../state/desk.ts";
import { type Menu, menuFor } from "./menuItems.ts";

export interface OpenMenu {
  readonly menu: Menu;
  readonly label: string;
  readonly at: Px;
}

export interface MenuContext {
  readonly desk: Desk;
  readonly fit: () => void;
  readonly stage: RefObject<HTMLElement | null>;
  readonly now: { readonly current: { readonly projection: Projection; readonly nodes: readonly SceneNode[] } };
  /** leaves what the hand is doing */
  readonly cancelHand: () => void;
}

/** ms a finger rests, and px it may tremble meanwhile */
const longPress = 550;
const tremble = 9;
const reach = { mouse: 9, touch: 18 };

export function useContextMenu({ desk, fit, stage, now, cancelHand }: MenuContext) {
  const [open, setOpen] = useState<OpenMenu | null>(null);
  const close = useCallback(() => setOpen(null), []);

  const openAt = useCallback(
    (at: Px, touch: boolean): void => {
      cancelHand();
      const { projection, nodes } = now.current;
      const site = projection.site(at);
      const { section, view } = desk.get();
      const part = partAt(nodes, projection, at, touch ? 12 : 5) ?? bodyAt(section, site)?.id ?? null;
      if (view.tool) desk.look((v) => ({ ...v, tool: null }));
      if (part && !view.selection.has(part)) desk.choose([part]);
      if (!part) desk.choose([]);
      const found = part ? section.parts.get(part) : undefined;
      setOpen({
        at,
        label: found ? partName(found) : "This place",
        menu: menuFor(desk, fit, {
          at: site,
          part,
          reach: (touch ? reach.touch : reach.mouse) / projection.pxPerMetre,
        }),
      });
    },
    [desk, fit, now, cancelHand],
  );

  /** For hands without a pointer: at the part that is chosen, else in the middle of the window. */
  const openByKey = useCallback((): void => {
    cancelHand();
    const { section, view } = desk.get();
    const [id] = view.selection;
    const part = id === undefined ? undefined : section.parts.get(id);
    const { projection } = now.current;
    const middle: Px = [innerWidth / 2, innerHeight / 3];
    const site = part ? anchorOf(section, part) : projection.site(middle);
    const at = part ? projection.px("site", site) : middle;
    setOpen({
      at,
      label: part ? (view.selection.size > 1 ? `${view.selection.size} parts` : partName(part)) : "This place",
      menu: menuFor(desk, fit, {
        at: site,
        part: part?.id ?? null,
        reach: reach.mouse / projection.pxPerMetre,
      }),
    });
  }, [desk, fit, now, cancelHand]);

  useEffect(() => {
    const element = stage.current;
    if (!element) return;
    const pxOf = (event: { clientX: number; clientY: number }): Px => {
      const box = element.getBoundingClientRect();
      return [event.clientX - box.left, event.clientY - box.top];
    };
    let resting: { readonly pointer: number; readonly at: Px; readonly timer: ReturnType<typeof setTimeout> } | null =
      null;
    const lift = (): void => {
      if (resting) clearTimeout(resting.timer);
      resting = null;
    };
    const down = (event: PointerEvent): void => {
      const second = resting !== null;
      lift();
      // A finger that holds a stencil rests before it sets down.
      if (event.pointerType === "mouse" || second || !event.isPrimary || desk.get().view.tool) return;
      const at = pxOf(event);
      const timer = setTimeout(() => {
        resting = null;
        openAt(at, true);
      }, longPress);
      resting = { pointer: event.pointerId, at, timer };
    };
    const move = (event: PointerEvent): void => {
      if (resting?.pointer !== event.pointerId) return;
      const [x, y] = pxOf(event);
      if (Math.hypot(x - resting.at[0], y - resting.at[1]) > tremble) lift();
    };
    const wished = (event: MouseEvent): void => {
      event.preventDefault();
      // A finger's long press is told by its own clock; a key comes through the keyboard.
      if (event.button !== 2 || (event instanceof PointerEvent && event.pointerType === "touch")) return;
      openAt(pxOf(event), false);
    };
    element.addEventListener("contextmenu", wished);
    element.addEventListener("pointerdown", down);
    window.addEventListener("pointermove", move);
    window.addEventListener("pointerup", lift);
    window.addEventListener("pointercancel", lift);
    return () => {
      lift();
      element.removeEventListener("contextmenu", wished);
      element.removeEventListener("pointerdown", down);
      window.removeEventListener("pointermove", move);
      window.removeEventListener("pointerup", lift);
      window.removeEventListener("pointercancel", lift);
    };
  }, [stage, openAt, desk]);

  return { open, close, openByKey };
}
