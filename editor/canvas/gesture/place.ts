/** New parts: shown under the pointer, pulled from the stencils, set down. */
import type { Point, Section } from "../../../hydraulics/index.ts";
import { placePipe } from "../../state/actions/placePipe.ts";
import { placeTool } from "../placing.ts";
import type { Px } from "../projection.ts";
import { reachOf } from "./hand.ts";
import type { Hands } from "./hands.ts";

export function ghost(hands: Hands, at: Px, touch: boolean, loose: boolean): void {
  const { section, view } = hands.desk.get();
  const tool = hands.hand.does === "place" ? hands.hand.tool : view.tool;
  if (!tool || tool === "pipe") return;
  const changed = placeTool(section, tool, snapped(hands, at, loose), hands.metres(reachOf(touch)));
  if (changed.ok) {
    hands.desk.showPreview(changed);
    hands.show({ at });
  } else {
    hands.desk.dropPreview();
    hands.show({ at: null });
  }
}

export function snapped(hands: Hands, at: Px, loose: boolean): Point {
  const [x, z] = hands.site(at);
  if (loose) return [x, z];
  const { step } = hands.grid();
  return [Math.round(x / step) * step, Math.round(z / step) * step];
}

/** A pipe whose first end is set down waits for its second only as long as the pipe is what the hand holds: another
 * stencil, or none, lets it go. */
export function letPipeGo(hands: Hands): void {
  if (hands.hand.does === "pull" && hands.desk.get().view.tool !== "pipe") hands.cancel();
}

export function pullTo(hands: Hands, at: Px, straight: boolean, touch: boolean): void {
  if (hands.hand.does !== "pull") return;
  if (Math.hypot(at[0] - hands.hand.from[0], at[1] - hands.hand.from[1]) < 8) return hands.desk.dropPreview();
  const changed = placePipe(hands.hand.section, {
    from: hands.gridPoint(hands.hand.from),
    to: hands.gridPoint(at),
    reach: hands.metres(reachOf(touch) * 1.4),
    straight,
  });
  if (changed.ok) hands.desk.showPreview(changed);
  hands.show({ at, cursor: "crosshair" });
}

export function moveStencil(hands: Hands, at: Px, touch: boolean): void {
  if (!hands.stencil || Math.hypot(at[0] - hands.stencil.at[0], at[1] - hands.stencil.at[1]) < 12) return;
  const { tool, pointer } = hands.stencil;
  hands.stencil = null;
  if (tool === "pipe") return;
  hands.desk.look((view) => ({ ...view, tool: null }));
  hands.hand = { does: "place", pointer, tool, at, section: hands.desk.get().section };
  ghost(hands, at, touch, false);
}

export function setDown(
  hands: Hands,
  section: Section,
  place: (section: Section) => ReturnType<typeof placeTool>,
): void {
  const changed = place(section);
  if (!hands.desk.apply(changed) || !changed.ok) return;
  const fresh = [...changed.section.parts.keys()].filter((id) => !section.parts.has(id));
  hands.desk.look((view) => ({ ...view, tool: null, selection: new Set(fresh) }));
  hands.show({ cursor: "default" });
}
