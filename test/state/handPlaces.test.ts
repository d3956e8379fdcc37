import { expect, test } from "vitest";
import { guidePlaces, tagPlace } from "../../editor/canvas/handPlaces.ts";
import { headroomOf } from "../../editor/panels/sheetPlaces.ts";
import { isNarrow, sheetLayout } from "../../editor/scene/layout.ts";
import { mmOfPx, pxOfRect, type Rect } from "../../editor/sheet/transform.ts";

const tagsOf = (verdict: string) => [
  { text: "+0.480 m", size: 15, weight: 600 } as const,
  { text: "delivers 4,410 L/h", size: 13, weight: 400 } as const,
  { text: verdict, size: 13, weight: 400 } as const,
];
const level = tagsOf("").slice(0, 1);
const whole = tagsOf("Holds its water, by a moving part");
const windows = [
  [1440, 900],
  [1024, 768],
  [390, 844],
  [844, 390],
] as const;

const fieldOf = (width: number, height: number): Rect => {
  const paper = { width: mmOfPx(width), height: mmOfPx(height) };
  return pxOfRect(sheetLayout(paper, { headroom: headroomOf(isNarrow(paper)) }).field);
};
const overlap = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
const isIn = (a: Rect, b: Rect): boolean =>
  a.x >= b.x && a.y >= b.y && a.x + a.width <= b.x + b.width && a.y + a.height <= b.y + b.height;
const aboutPointer = (x: number, y: number): Rect => ({ x: x - 5, y: y - 5, width: 10, height: 10 });

test.each(windows)(
  "wherever the pointer is in a window of %d by %d px, names of what was snapped to lie in the field, clear of tag and pointer and of each other",
  (width, height) => {
    const field = fieldOf(width, height);
    let seen = 0;
    const troubles: string[] = [];
    for (const lines of [level, whole])
      for (let x = field.x + 2; x < field.x + field.width; x += 12)
        for (let y = field.y + 2; y < field.y + field.height; y += 9)
          for (const [dx, dy] of [
            [0, 0],
            [-70, 40],
            [70, -40],
          ] as const) {
            const tag = tagPlace(lines, [x, y], { width, height });
            const words = [
              { axis: "x", line: x + dx, name: "edge of Bog filter" },
              { axis: "z", line: y + dy, name: "water in Goldfish pond" },
            ] as const;
            const places = guidePlaces(words, [x, y], tag, field);
            const [upright, across] = places as [Rect, Rect];
            const where = `pointer ${x}, ${y}: `;
            for (const place of places) {
              if (!isIn(place, field)) troubles.push(`${where} over the field's edge`);
              if (overlap(place, tag)) troubles.push(`${where} under the tag`);
              if (overlap(place, aboutPointer(x, y))) troubles.push(`${where} under the pointer`);
            }
            if (overlap(upright, across)) troubles.push(`${where} on each other`);
            seen += 1;
          }
    expect(seen).toBeGreaterThan(500);
    expect(troubles).toEqual([]);
  },
);

test.each(windows)(
  "wherever the pointer is in a window of %d by %d px, all of the tag is in it, clear of the pointer",
  (width, height) => {
    for (const lines of [level, whole])
      for (let x = 0; x <= width; x += 10)
        for (let y = 100; y <= height; y += 10) {
          const tag = tagPlace(lines, [x, y], { width, height });
          expect(isIn(tag, { x: 0, y: 0, width, height }), `pointer ${x}, ${y}`).toBe(true);
          expect(overlap(tag, aboutPointer(x, y)), `pointer ${x}, ${y}`).toBe(false);
        }
  },
);

test("the name of an upright line stays with its line, and that of a level with its", () => {
  const field = fieldOf(1440, 900);
  const tag = tagPlace(whole, [700, 300], { width: 1440, height: 900 });

  const [upright] = guidePlaces([{ axis: "x", line: 690, name: "edge of Pond" }], [700, 300], tag, field) as [Rect];
  expect(upright.x).toBe(692);
  const [across] = guidePlaces([{ axis: "z", line: 290, name: "rim of Pond" }], [700, 300], tag, field) as [Rect];
  expect(across.y + across.height).toBe(288);
});
