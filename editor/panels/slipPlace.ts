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

/** px; tall enough for the readings and the first fields, or, where that would lie on what it speaks of, for some of
 * them. It grows downward where it covers nothing more, then scrolls. */
const heights = [400, 300];
const lower = 8000;
const steps = 14;
/** px; a run of a pipe or a small part, not a body: words on water hide little, on a pipe they hide the pipe */
const thin = 60;
const isThin = ({ left, top, right, bottom }: Box): boolean => Math.min(right - left, bottom - top) < thin;

export function slipPlace({ anchor, keepClear, itself, free, width }: SlipWish): SlipPlace {
  const runs = itself.filter(isThin);
  const hidden = (slip: Box): number =>
    keepClear.reduce((sum, box) => sum + (isThin(box) ? 1.5 : 0.5) * overlap(slip, box), 0) +
    itself.reduce((sum, box) => sum + 4 * overlap(slip, box), 0);
  // On its own run, or on one line with it, a leader could not be told from the part.
  const unclear = (slip: Box): number => {
    const end = nearest(slip, anchor);
    const near = distance(slip, anchor) < 24 ? 20_000 : 0;
    return near + 250 * along(end, anchor, runs) + (isOn(end, runs) ? 40_000 : 0);
  };
  const across = free.right - free.left - width;
  let best: { readonly slip: Box; readonly cost: number } | null = null;
  for (const [k, height] of heights.entries()) {
    const tall = Math.min(height, free.bottom - free.top);
    for (let i = 0; i <= steps; i++) {
      for (let j = 0; j <= steps; j++) {
        const left = free.left + (across * i) / steps;
        const top = free.top + ((free.bottom - free.top - tall) * j) / steps;
        const slip = { left, top, right: left + width, bottom: top + tall };
        const cost = hidden(slip) + 90 * distance(slip, anchor) + unclear(slip) + k * lower;
        if (!best || cost < best.cost) best = { slip, cost };
      }
    }
  }
  const slip = (best as { readonly slip: Box }).slip;
  const { left, top } = slip;
  return {
    left,
    top,
    maxHeight: lowest(slip, [...keepClear, ...itself], free) - top,
    leader: distance(slip, anchor) === 0 ? null : [nearest(slip, anchor), anchor],
  };
}

/** How far down it may go: to the foot of the sheet, or to the next thing under it. */
function lowest(slip: Box, things: readonly Box[], free: Box): number {
  const under = things.filter(
    ({ left, right, bottom }) => left < slip.right && right > slip.left && bottom > slip.bottom,
  );
  return Math.max(slip.bottom, Math.min(free.bottom, ...under.map(({ top }) => top - 8)));
}

const nearest = ({ left, top, right, bottom }: Box, [x, y]: Px): Px => [clamp(x, left, right), clamp(y, top, bottom)];

const isOn = ([x, y]: Px, boxes: readonly Box[]): boolean =>
  boxes.some(({ left, top, right, bottom }) => x >= left - 2 && x <= right + 2 && y >= top - 2 && y <= bottom + 2);

/** px of the leader that run over the part itself before it gets to its place: along a pipe it could not be told from
 * the pipe. The last few are where it meets it. */
function along([ax, ay]: Px, [bx, by]: Px, itself: readonly Box[]): number {
  const length = Math.hypot(bx - ax, by - ay);
  const step = 6;
  let over = 0;
  for (let at = 0; at < length - 14; at += step) {
    if (isOn([ax + ((bx - ax) * at) / length, ay + ((by - ay) * at) / length], itself)) over += step;
  }
  return over;
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
