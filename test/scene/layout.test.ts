/** Where strip and title block stand in windows of many sizes: a laptop's window seen at twice its size (WCAG 2.2,
 * success criterion 1.4.4) still has the strip, or nobody could play the power cut there. */
import { describe, expect, test } from "vitest";
import { freeBox } from "../../editor/panels/sheetPlaces.ts";
import { sheetLayout } from "../../editor/scene/layout.ts";
import { mmOfPx, type Rect } from "../../editor/sheet/transform.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { sceneOf } from "./sheets.ts";

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

  // A large screen's window seen at four times its size (1.4.10), and others too low for a whole title block.
  test.each([
    [320, 256],
    [400, 300],
    [360, 400],
    [320, 420],
  ])("leave the section its place in %i by %i px, the title block the verdict and the caution", (width, height) => {
    const { frame, field, title } = laidOut(width, height);

    expect(within(title, frame)).toBe(true);
    expect(within(field, frame)).toBe(true);
    expect(shares(field, title)).toBe(false);
    expect(field.height).toBeGreaterThanOrEqual(mmOfPx(50));

    const { nodes } = sceneOf(
      readDrawing("design/courtyard.json"),
      { width: mmOfPx(width), height: mmOfPx(height) },
      { headroom: headroom.narrow },
    );
    const texts = nodes.filter(({ key, shape }) => shape === "text" && inTitle.test(key));
    const keys = texts.map(({ key }) => key);
    expect(keys).toEqual(expect.arrayContaining(["sheet verdict", "sheet name", "sheet findings", "sheet hedge"]));
    for (const node of texts)
      if (node.shape === "text") {
        expect(node.at[1]).toBeLessThan(title.y + title.height);
        expect(node.at[1] - node.size).toBeGreaterThan(title.y);
      }
  });
});

const inTitle = /^sheet (verdict|reason|figure|name|findings|about|hedge)/;

test.each([
  [844, 390],
  [915, 412],
  [800, 360],
  [1440, 900],
])("a slip has room for more than its head in %i by %i px, beside the title block or over it", (width, height) => {
  const { top, bottom, left, right } = freeBox(laidOut(width, height));

  expect(bottom - top).toBeGreaterThan(200);
  expect(right - left).toBeGreaterThan(300);
  expect(right).toBeLessThanOrEqual(width);
  expect(bottom).toBeLessThanOrEqual(height);
});
