import { withinReason, zoomedAt } from "../zoom.ts";
import type { Hands } from "./hands.ts";

/** Moves the sheet, or zooms it with Ctrl. */
export function wheel(hands: Hands, event: WheelEvent): void {
  event.preventDefault();
  // The sheet is in the hand already.
  if (hands.hand.does === "pan" || hands.hand.does === "pinch") return;
  const { camera } = hands.context.projection();
  const lines = event.deltaMode === 1 ? 24 : 1;
  if (event.ctrlKey || event.metaKey) {
    const at = hands.px(event);
    const scale = withinReason(camera.scale * Math.exp(-Math.max(-60, Math.min(60, event.deltaY * lines)) * 0.008));
    hands.look(zoomedAt(camera, at, scale));
  } else {
    const [dx, dy] = event.shiftKey && event.deltaX === 0 ? [event.deltaY, 0] : [event.deltaX, event.deltaY];
    hands.look({ ...camera, x0: camera.x0 + (dx * lines) / camera.scale, z0: camera.z0 - (dy * lines) / camera.scale });
  }
}
