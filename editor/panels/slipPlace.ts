/** Where a slip lies: beside its part, on the sheet, off the title block, tied to the part by a leader. */
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

const gap = 46;
const wished = 470;

/** `part` is the chosen part's box on the screen, `free` where slips may lie. */
export function slipPlace(part: Box, anchor: Px, free: Box, width: number): SlipPlace {
  const room = { right: free.right - part.right, left: part.left - free.left };
  const toRight = room.right >= width + gap || room.right >= room.left;
  const wishedLeft = toRight ? part.right + gap : part.left - gap - width;
  const left = clamp(wishedLeft, free.left, free.right - width);
  const top = clamp(Math.min(anchor[1] - 120, free.bottom - wished), free.top, Math.max(free.top, free.bottom - 200));
  const maxHeight = Math.max(free.bottom - top, 160);
  const over = anchor[0] > left && anchor[0] < left + width && anchor[1] > top && anchor[1] < top + maxHeight;
  const edge: Px = [anchor[0] < left ? left : left + width, clamp(anchor[1], top + 14, top + 120)];
  return { left, top, maxHeight, leader: over ? null : [edge, anchor] };
}

const clamp = (value: number, least: number, most: number): number =>
  Math.min(Math.max(value, least), Math.max(least, most));
