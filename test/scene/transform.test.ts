/** Site, paper, screen. */
import { expect, test } from "vitest";
import {
  cameraOf,
  fit as fitInto,
  paperOf,
  pxOfMm,
  scaleOf,
  siteAt,
  transformOfCamera,
  trueScale,
  zoomAt,
} from "../../editor/sheet/transform.ts";

const rect = { x: 20, y: 10, width: 250, height: 120 };

test("a metre at 1:20 is 50 mm of paper, both ways", () => {
  const t = fitInto({ left: 0, right: 4, bottom: -1, top: 1 }, rect, 20);

  const [x0, y0] = paperOf(t, [1, 0]);
  const [x1, y1] = paperOf(t, [2, 1]);

  expect(x1 - x0).toBeCloseTo(50, 9);
  expect(y0 - y1).toBeCloseTo(50, 9);
  expect(scaleOf(t)).toBeCloseTo(20, 9);
});

test("the true scale is the largest usual one that fits", () => {
  expect(trueScale({ left: 0, right: 5, bottom: 0, top: 1 }, rect)).toBe(20);
  expect(trueScale({ left: 0, right: 5.01, bottom: 0, top: 1 }, rect)).toBe(25);
  expect(trueScale({ left: 0, right: 1, bottom: 0, top: 3 }, rect)).toBe(25);
  expect(trueScale({ left: 0, right: 30, bottom: 0, top: 1 }, rect)).toBe(200);
});

test("paper and site are each other's inverse, and so are camera and transform", () => {
  const t = fitInto({ left: -3, right: 8, bottom: -2, top: 2.5 }, rect);

  const [x, z] = siteAt(t, paperOf(t, [1.25, -0.5]));
  const back = transformOfCamera(cameraOf(t));

  expect([x, z].map((value) => Math.round(value * 1e9) / 1e9)).toEqual([1.25, -0.5]);
  expect(back.mmPerMetre).toBeCloseTo(t.mmPerMetre, 9);
  expect(pxOfMm(25.4)).toBeCloseTo(96, 9);
});

test("zooming keeps the place under the pointer", () => {
  const t = fitInto({ left: 0, right: 4, bottom: -1, top: 1 }, rect);
  const at = [77, 31] as const;

  const after = zoomAt(t, at, 1.7);

  const [x, z] = siteAt(t, at);
  const [x2, z2] = siteAt(after, at);
  expect(x2).toBeCloseTo(x, 9);
  expect(z2).toBeCloseTo(z, 9);
  expect(after.mmPerMetre / t.mmPerMetre).toBeCloseTo(1.7, 9);
});
