/** Where strip and title block stand in windows of many sizes: a laptop's window seen at twice its size (WCAG 2.2,
 * success criterion 1.4.4) still has the strip, or nobody could play the power cut there. */
import { describe, expect, test } from "vitest";
import { sheetLayout } from "../../editor/scene/layout.ts";
import { mmOfPx, type Rect } from "../../editor/sheet/transform.ts";

const headroom = { narrow: mmOfPx(88), wide: mmOfPx(62) };
const laidOut = (width: number, height: number) =>
  sheetLayout(
    { width: mmOfPx(width), height: mmOfPx(height) },
    { headroom: mmOfPx(width) < 200 ? headroom.narrow : headroom.wide },
  );

const shares = (a: Rect, b: Rect): boolean =>
  Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x) > 1e-9 &&
  Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y) > 1e-9;

const within = (inner: Rect, outer: Rect): boolean =>
  inner.x >= outer.x - 1e-9 &&
  inner.y >= outer.y - 1e-9 &&
  inner.x + inner.width <= outer.x + outer.width + 1e-9 &&
  inner.y + inner.height <= outer.y + outer.height + 1e-9;

describe("strip, title block and section", () => {
  // Halves of 2560, 1920 and 1440 px screens, a phone upright, common windows.
  test.each([
    [1280, 720],
    [960, 540],
    [960, 440],
    [720, 450],
    [390, 780],
    [1024, 700],
    [1440, 900],
  ])("have places of their own in %i by %i px", (width, height) => {
    const { frame, field, strip, title } = laidOut(width, height);

    expect(strip).not.toBeNull();
    const rects = [field, strip as Rect, title];
    for (const rect of rects) expect(within(rect, frame)).toBe(true);
    for (const [k, rect] of rects.entries())
      for (const other of rects.slice(k + 1)) expect(shares(rect, other)).toBe(false);
    expect(field.height).toBeGreaterThan(mmOfPx(100));
  });
});
