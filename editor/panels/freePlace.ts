/** A place for something of this size that covers nothing. */
import type { Box } from "./slipPlace.ts";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** px from one place that is tried to the next */
const step = 10;

/** The uppermost place, and of several the leftmost: at `margin` px at least from all that is to be kept clear of. */
export function freePlace(size: Size, within: Box, keepClear: readonly Box[], margin: number): Box | null {
  for (let top = within.top; top + size.height <= within.bottom; top += step) {
    const bottom = top + size.height;
    const beside = keepClear.filter((box) => box.top < bottom + margin && box.bottom > top - margin);
    let left = within.left;
    while (left + size.width <= within.right) {
      const right = left + size.width;
      const inTheWay = beside.filter((box) => box.left < right + margin && box.right > left - margin);
      if (inTheWay.length === 0) return { left, top, right, bottom };
      // Nothing between here and past the nearest of them is free.
      left = Math.max(left + step, Math.min(...inTheWay.map((box) => box.right + margin)));
    }
  }
  return null;
}
