/** The strip's stretched time axis and its plot, until the scene's own strip says where they are. */
import type { PowerCut } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";

export const stripPlot = (strip: Rect): Rect => ({
  x: strip.x + 8,
  y: strip.y + 12,
  width: strip.width - 16,
  height: strip.height - 20,
});

export function stripAxis(cut: PowerCut): { shareAt(time: number): number; timeAt(share: number): number } {
  const whole = Math.log1p(Math.max(cut.duration, 1) / 5);
  return { shareAt: (time) => Math.log1p(time / 5) / whole, timeAt: (share) => 5 * Math.expm1(share * whole) };
}
