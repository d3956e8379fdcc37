/** The sheet under fingers: real touch events in a window that has a touch screen. */
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { App } from "../support/app.ts";
import { axeFinds } from "./axe.ts";
import { type Px, type Saved, saved, takenBack } from "./sheet.ts";
import { type Fingers, fingersOn } from "./touch.ts";
import { openYard, partById } from "./yard.ts";

let app: App;
let at: (x: number, z: number) => Px;
let start: Saved;
let fingers: Fingers;

beforeAll(async () => {
  ({ app, at } = await openYard({ hasTouch: true }));
  start = await saved(app.page);
  fingers = await fingersOn(app.page);
});

// One window for all: each test leaves the drawing and the sheet as they were.
afterEach(async () => {
  await takenBack(app.page);
  expect(await saved(app.page)).toEqual(start);
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

const trough = (drawing: Saved) => partById(drawing, "trough");

/** Where the trough is met by a finger now, and how many px a metre takes: two places that are told by its slip. */
async function nameAt(place: Px): Promise<string | null> {
  await fingers.down(place);
  await fingers.up();
  await app.page.waitForTimeout(150);
  const heading = app.page.locator("#slip h2");
  const name = (await heading.count()) > 0 ? await heading.textContent() : null;
  // Its slip might lie over the next place.
  await app.page.keyboard.press("Escape");
  return name;
}

test("one finger drags a part, in one step", async () => {
  await fingers.drag([at(4.9, 0.55)], [at(5.4, 0.55)]);

  await expect.poll(async () => trough(await saved(app.page)).x).toBeCloseTo(4.5, 1);
  await app.page.keyboard.press("Control+z");
  expect(await saved(app.page)).toEqual(start);
});

test("two fingers apart zoom about their middle, and the drawing stays as it is", async () => {
  const [x, y] = at(4.6, 0.55);
  const beside = at(5.35, 0.55);
  expect(await nameAt(beside)).toBe(null);
  await fingers.drag(
    [
      [x - 60, y],
      [x + 60, y],
    ],
    [
      [x - 120, y],
      [x + 120, y],
    ],
  );

  // Twice as large: what lay beside the trough's wall, 0.75 m from its middle, now lies on it (0.375 m).
  expect(await nameAt(beside)).toBe("Trough");
  expect(await saved(app.page)).toEqual(start);
});

test("two fingers side by side move the sheet", async () => {
  const [x, y] = at(4.6, 0.55);
  await fingers.drag(
    [
      [x - 40, y],
      [x + 40, y],
    ],
    [
      [x - 340, y + 60],
      [x - 260, y + 60],
    ],
  );

  expect(await nameAt([x - 300, y + 60])).toBe("Trough");
  expect(await nameAt([x, y])).toBe(null);
  expect(await saved(app.page)).toEqual(start);
});

test("a second finger in mid drag leaves the drag without a trace", async () => {
  const from = at(4.9, 0.55);
  await fingers.down(from);
  await fingers.move([from[0] + 40, from[1]]);
  await fingers.move([from[0] + 90, from[1]]);
  await fingers.down([from[0] + 90, from[1]], [from[0] + 200, from[1] + 100]);
  await fingers.move([from[0] + 95, from[1]], [from[0] + 205, from[1] + 100]);
  await fingers.up();

  expect(await saved(app.page)).toEqual(start);
});

test("a finger that rests opens the menu of the part under it; one that moves does not", async () => {
  await fingers.down(at(2, 1));
  await app.page.waitForTimeout(700);
  const menu = app.page.getByRole("menu", { name: "Supply" });
  await menu.waitFor();
  await fingers.up();
  expect(await axeFinds(app.page)).toEqual([]);
  await menu.getByRole("menuitem", { name: "Put a valve here" }).tap();
  await expect.poll(async () => (await saved(app.page)).parts.filter(({ kind }) => kind === "valve").length).toBe(1);

  await app.page.keyboard.press("Control+z");
  await fingers.drag([at(4.9, 0.55)], [at(5.3, 0.55)], 25);
  await app.page.waitForTimeout(600);
  expect(await app.page.getByRole("menu").count()).toBe(0);
});
