/** Where a slip lies: near its part, but on the emptiest place of the sheet, tied to the part by a leader. */
import type { Px } from "../canvas/projection.ts";

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface SlipPlace {
  readonly left: number;
  readonly top: number;
  readonly maxHeight: number;
  /** from the slip's edge to the part */
  readonly leader: readonly [Px, Px] | null;
}

export interface SlipWish {
  /** the point of the part that the leader meets */
  readonly anchor: Px;
  /** what should stay visible: bodies, runs of pipes; the part itself first of all */
  readonly keepClear: readonly Box[];
  readonly itself: readonly Box[];
  /** where slips may lie */
  readonly free: Box;
  readonly width: number;
}

/** px; tall enough for the readings and the first fields, the rest scrolls */
const height = 400;
const steps = 14;

export function slipPlace({ anchor, keepClear, itself, free, width }: SlipWish): SlipPlace {
  const tall = Math.min(height, free.bottom - free.top);
  let best: { left: number; top: number; cost: number } | null = null;
  for (let i = 0; i <= steps; i++) {
    for (let j = 0; j <= steps; j++) {
      const left = free.left + ((free.right - free.left - width) * i) / steps;
      const top = free.top + ((free.bottom - free.top - tall) * j) / steps;
      const slip = { left, top, right: left + width, bottom: top + tall };
      const covered =
        keepClear.reduce((sum, box) => sum + overlap(slip, box), 0) +
        itself.reduce((sum, box) => sum + 4 * overlap(slip, box), 0);
      const cost = covered + 90 * distance(slip, anchor) + (distance(slip, anchor) < 24 ? 20_000 : 0);
      if (!best || cost < best.cost) best = { left, top, cost };
    }
  }
  const { left, top } = best ?? { left: free.left, top: free.top };
  const over = anchor[0] > left && anchor[0] < left + width && anchor[1] > top && anchor[1] < top + tall;
  const edge: Px = [clamp(anchor[0], left, left + width), clamp(anchor[1], top, top + tall)];
  return { left, top, maxHeight: tall, leader: over ? null : [edge, anchor] };
}

function overlap(a: Box, b: Box): number {
  return (
    Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) *
    Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top))
  );
}

const distance = (box: Box, [x, y]: Px): number =>
  Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.top - y, 0, y - box.bottom));

const clamp = (value: number, least: number, most: number): number =>
  Math.min(Math.max(value, least), Math.max(least, most));
