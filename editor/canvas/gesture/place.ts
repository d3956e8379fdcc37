/** New parts: shown under the pointer, pulled from the stencils, set down. */
import type { Point } from "../../../hydraulics/index.ts";
import type { Changed } from "../../state/edit.ts";
import { freshParts } from "../../state/freshParts.ts";
import { dragFreshEnd, dragTool } from "../dragNew.ts";
import type { Px } from "../projection.ts";
import { unmarked } from "./hand.ts";
import type { Hands } from "./hands.ts";

export function ghost(hands: Hands, at: Px, touch: boolean, loose: boolean): void {
  const { section, view } = hands.desk.get();
  const tool = hands.hand.does === "place" ? hands.hand.tool : view.tool;
  if (!tool) return;
  const wish = hands.wish(at, touch, loose);
  const { changed, guides, figure } =
    tool === "pipe" ? dragFreshEnd(section, null, wish) : dragTool(section, tool, wish);
  if (!changed.ok || !hands.isOverField(at)) return hide(hands);
  if (tool !== "pipe") hands.desk.showPreview(changed);
  hands.ghosted = tool !== "pipe" && hands.hand.does === "nothing";
  hands.show({ at, guides, figure });
}

/** What can not be set down there is not shown as if it could. */
function hide(hands: Hands): void {
  hands.ghosted = false;
  hands.desk.dropPreview();
  hands.show(unmarked);
}

/** The first end of a pipe is where the hand is; without a pointer the second one follows any, until it is set down. */
export function beginPull(hands: Hands, at: Px, touch: boolean, loose: boolean, pointer: number | null): void {
  const { section } = hands.desk.get();
  const pressed = hands.site(at);
  const { figure } = dragFreshEnd(section, null, hands.wish(at, touch, loose));
  hands.hand = { does: "pull", pointer, pressed, from: figure?.at ?? pressed, section };
}

/** px within which a pipe that is pulled is still at its start */
const near = 8;

export function isNear(hands: Hands, at: Px, pressed: Point): boolean {
  const [x, y] = hands.context.projection().px("site", pressed);
  return Math.hypot(at[0] - x, at[1] - y) < near;
}

export function pullTo(hands: Hands, at: Px, straight: boolean, touch: boolean): void {
  if (hands.hand.does !== "pull") return;
  const { section, pressed, from } = hands.hand;
  if (isNear(hands, at, pressed)) return hide(hands);
  const { changed, guides, figure } = dragFreshEnd(section, from, hands.wish(at, touch, straight));
  if (!changed.ok || !hands.isOverField(at)) return hide(hands);
  hands.desk.showPreview(changed);
  hands.show({ at, guides, figure, cursor: "crosshair" });
}

export function moveStencil(hands: Hands, at: Px, touch: boolean): void {
  if (!hands.stencil || Math.hypot(at[0] - hands.stencil.at[0], at[1] - hands.stencil.at[1]) < 12) return;
  const { tool, pointer } = hands.stencil;
  hands.stencil = null;
  hands.desk.look((view) => ({ ...view, tool: null }));
  hands.hand = { does: "place", pointer, tool, section: hands.desk.get().section };
  ghost(hands, at, touch, false);
}

/** What was set down is chosen, and the hand is empty.
 * @param time ms, by the events' clock */
export function setDown(hands: Hands, changed: Changed, time: number): void {
  hands.setDownAt = time;
  const before = hands.desk.get().section;
  if (!hands.desk.apply(changed) || !changed.ok) return;
  const fresh = freshParts(before, changed.section);
  hands.desk.look((view) => ({ ...view, tool: null, selection: new Set(fresh.map(({ id }) => id)) }));
  hands.show({ cursor: "default" });
}
