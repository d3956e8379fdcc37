/** Where on the window the things stand that lie over the drawing. */
import type { CSSProperties } from "react";
import type { SheetLayout } from "../scene/layout.ts";
import { mmOfPx, pxOfMm, pxOfRect, type Rect } from "../sheet/transform.ts";
import type { View } from "../state/view.ts";
import type { Box } from "./slipPlace.ts";

/** px under the upper frame line that belong to stencils and words */
const under = { wide: 62, narrow: 88 };

/** mm of paper */
export const headroomOf = (narrow: boolean): number => mmOfPx(narrow ? under.narrow : under.wide);

/** Stencils and words, along the frame's upper edge. */
export const upperEdge = (frame: Rect, narrow: boolean): CSSProperties => ({
  left: pxOfMm(frame.x) + (narrow ? 4 : 34),
  top: pxOfMm(frame.y) + 4,
  width: pxOfMm(frame.width) - (narrow ? 8 : 46),
  flexDirection: narrow ? "column-reverse" : "row",
  gap: narrow ? 0 : 16,
});

/** Where slips may lie: over the section, also where that stands beside the title block. */
export function freeBox({ field }: SheetLayout): Box {
  const { x, y, width, height } = pxOfRect(field);
  return { left: x + 8, right: x + width - 8, top: y + 4, bottom: y + height - 8 };
}

const wideSlips: ReadonlySet<View["slip"]> = new Set([
  "table",
  "faults",
  "gallery",
  "rules",
  "size",
  "whatIf",
  "compare",
  "buy",
]);
export const isWide = (slip: View["slip"]): boolean => wideSlips.has(slip);

export function sheetSlipPlace(free: Box, wide: boolean, windowWidth: number): CSSProperties {
  const size = wide ? Math.min(760, windowWidth - 90) : 420;
  // A table would rather lie over the title block than beside it.
  const right = wide ? Math.max(free.right, windowWidth - 27) : free.right;
  return {
    left: Math.max(free.left, right - size),
    top: free.top,
    width: Math.min(size, right - free.left),
    maxHeight: Math.max(free.bottom - free.top, 200),
  };
}
