import { describe, expect, test } from "vitest";
import { freePlace } from "../../editor/panels/freePlace.ts";

const sheet = { left: 0, top: 0, right: 400, bottom: 300 };
const box = (left: number, top: number, right: number, bottom: number) => ({ left, top, right, bottom });

describe("a place that covers nothing", () => {
  test("is the upper left corner of an empty sheet", () => {
    expect(freePlace({ width: 100, height: 50 }, sheet, [], 10)).toEqual(box(0, 0, 100, 50));
  });

  test("keeps its margin to what stands beside, over and under it", () => {
    const things = [box(0, 0, 150, 90), box(320, 0, 400, 90), box(0, 160, 400, 300)];

    expect(freePlace({ width: 140, height: 50 }, sheet, things, 10)).toEqual(box(160, 0, 300, 50));
    expect(freePlace({ width: 160, height: 50 }, sheet, things, 10)).toEqual(box(0, 100, 160, 150));
    expect(freePlace({ width: 160, height: 60 }, sheet, things, 10)).toBe(null);
  });

  test("is none where the sheet is too small", () => {
    expect(freePlace({ width: 401, height: 50 }, sheet, [], 0)).toBe(null);
    expect(freePlace({ width: 100, height: 301 }, sheet, [], 0)).toBe(null);
  });
});
