/** Where the strip's plot lies and how its time axis is stretched: seconds and hours have to be read on one line. */
import type { PowerCut } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";

export const stripPlot = (strip: Rect): Rect => ({
  x: strip.x + 8,
  y: strip.y + 12,
  width: strip.width - 16,
  height: strip.height - 20,
});

/** The time shown at the right end: what matters is over long before the last tenth of a millimetre. */
export function shownUntil(cut: PowerCut): number {
  const { times, levels } = cut.history;
  const last = times.length - 1;
  let until = 60;
  for (const series of levels.values()) {
    const end = series[last] as number;
    for (let k = last; k >= 0; k--) {
      if (Math.abs((series[k] as number) - end) > 2e-4) {
        until = Math.max(until, times[Math.min(last, k + 1)] as number);
        break;
      }
    }
  }
  return Math.min(Math.max(until * 1.3, 60), Math.max(cut.duration, 60));
}

export function stripAxis(cut: PowerCut): { shareAt(time: number): number; timeAt(share: number): number } {
  const whole = Math.log1p(shownUntil(cut) / 5);
  return {
    shareAt: (time) => Math.min(1, Math.log1p(Math.max(0, time) / 5) / whole),
    timeAt: (share) => 5 * Math.expm1(share * whole),
  };
}
