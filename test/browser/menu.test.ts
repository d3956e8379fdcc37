/** What can be done with the part or the place under the pointer. */
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { App } from "../support/app.ts";
import { axeFinds } from "./axe.ts";
import { type Px, partStops, saved, tabOnto, takenBack, word } from "./sheet.ts";
import { openYard, partById as part } from "./yard.ts";

let app: App;
let page: Page;
let at: (x: number, z: number) => Px;

beforeAll(async () => {
  ({ app, at } = await openYard());
  page = app.page;
});

// One window for all: each test leaves the drawing as it was.
afterEach(() => takenBack(page));

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

const item = (name: string) => page.getByRole("menuitem", { name, exact: true });
/** With nothing chosen: a slip might lie over the place. */
async function rightClick(place: Px): Promise<void> {
  await page.keyboard.press("Escape");
  await page.mouse.click(place[0], place[1], { button: "right" });
}

test("on a pipe: a bend, a breather, a tee, each where the pointer was and one step each", async () => {
  const before = await saved(page);
  await rightClick(at(2, 1));
  await page.getByRole("menu", { name: "Supply" }).waitFor();
  await item("Add a bend here").click();
  const bent = await saved(page);
  expect(part(bent, "supply").route.length).toBe(4);
  expect(part(bent, "supply").route[1][0]).toBeCloseTo(2, 1);

  await rightClick(at(2, 1));
  await item("Take this bend out").click();
  expect(part(await saved(page), "supply").route).toEqual(part(before, "supply").route);

  await rightClick(at(2.5, 1));
  await item("Put a check valve here").click();
  const check = (await saved(page)).parts.find(({ kind }) => kind === "checkValve");
  // 1.5 m up from the pump and 2 m along.
  expect(check?.on).toMatchObject({ pipe: "supply" });
  expect(check?.on.at).toBeCloseTo(3.5, 1);

  await rightClick(at(1.2, 1));
  await item("Tee a pipe off here").click();
  const tee = (await saved(page)).parts.findLast(({ kind }) => kind === "pipe");
  expect(tee?.from).toMatchObject({ pipe: "supply" });
  for (let k = 0; k < 4; k++) await page.keyboard.press("Control+z");
  expect(await saved(page)).toEqual(before);
});

test("copy, paste at another place, cut, duplicate and remove", async () => {
  await rightClick(at(4.9, 0.55));
  await item("Copy").click();
  await rightClick(at(1.5, 0.5));
  await page.getByRole("menu", { name: "This place" }).waitFor();
  await item("Paste here").click();
  const pasted = part(await saved(page), "trough-2");
  expect(pasted.x + 0.6).toBeCloseTo(1.5, 1);
  expect((pasted.baseLevel + pasted.rimLevel) / 2).toBeCloseTo(0.5, 1);

  await rightClick(at(1.5, 0.5));
  await item("Remove").click();
  expect((await saved(page)).parts.map(({ id }) => id)).not.toContain("trough-2");
});

test("a breather alone is doubled, cut, and pasted onto the pipe it came from, not elsewhere", async () => {
  const vents = async () => (await saved(page)).parts.filter(({ kind }) => kind === "vent");
  await rightClick(at(3, 1.2));
  await page.getByRole("menu", { name: "Breather" }).waitFor();
  await item("Duplicate").click();
  const doubled = await vents();
  expect(doubled.map(({ id, label }) => [id, label])).toEqual([
    ["breather", "Breather"],
    ["breather-2", "Breather 2"],
  ]);
  expect(doubled[1]?.on).toEqual({ pipe: "supply", at: 4.2 });

  await page.keyboard.press("Control+z");
  await rightClick(at(3, 1.2));
  await item("Cut").click();
  expect(await vents()).toEqual([]);
  await rightClick(at(4.9, 0.55));
  await item("Paste here").click();
  expect(await vents()).toMatchObject([{ id: "breather", on: { pipe: "supply" } }]);

  await page.keyboard.press("Control+x");
  expect(await vents()).toEqual([]);
  await page.mouse.click(...at(2, 1));
  await page.keyboard.press("Delete");
  await page.keyboard.press("Control+v");
  await expect.poll(() => page.getByRole("alert").textContent()).toMatch(/Breather can not be pasted: the pipe/);
});

test("by keyboard: Shift F10 on a part from the list, arrows, letters, Escape, and the focus goes back", async () => {
  const stop = partStops(page, /^Supply/);
  await tabOnto(page, stop);
  await page.keyboard.press("Shift+F10");
  await page.getByRole("menu", { name: "Supply" }).waitFor();
  const focused = () => page.evaluate(() => document.activeElement?.firstElementChild?.textContent);
  expect(await focused()).toBe("Add a bend here");
  await page.keyboard.press("ArrowUp");
  expect(await focused()).toBe("The whole section on the sheet");
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowDown");
  expect(await focused()).toBe("Put a valve here");
  await page.keyboard.press("d");
  expect(await focused()).toBe("Duplicate");
  await page.keyboard.press("Escape");
  expect(await page.getByRole("menu").count()).toBe(0);
  expect(await stop.evaluate((element) => element === document.activeElement)).toBe(true);

  await page.keyboard.press("Shift+F10");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  expect((await saved(page)).parts.filter(({ kind }) => kind === "valve").length).toBe(1);
});

test("what is taken away from its stop leaves the keys on the next stop, at the end on the one before", async () => {
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label")?.split(":")[0] ?? "");
  const chosen = () => page.locator("#slip h2").textContent();
  await tabOnto(page, partStops(page, /^Trough/));
  await page.keyboard.press("Delete");
  await expect.poll(focused).toBe("Lift");
  await expect.poll(chosen).toBe("Lift");

  // The breather goes with its pipe.
  await page.keyboard.press("Tab");
  await page.keyboard.press("Control+x");
  await expect.poll(focused).toBe("Return");
  await page.keyboard.press("Shift+F10");
  await page.getByRole("menu", { name: "Return" }).waitFor();
  await item("Remove").press("Enter");
  await expect.poll(focused).toBe("Lift");
  expect((await saved(page)).parts.map(({ id }) => id)).toEqual(["basin", "lift"]);
});

test("several parts are aligned from the menu of one of them", async () => {
  await page.mouse.click(...at(4.9, 0.55));
  await page.keyboard.down("Shift");
  await page.mouse.click(...at(1.5, -0.4));
  await page.keyboard.up("Shift");
  await page.mouse.click(...at(4.9, 0.55), { button: "right" });
  await item("Align tops").click();

  const drawing = await saved(page);
  expect(part(drawing, "trough").rimLevel).toBeCloseTo(part(drawing, "basin").rimLevel, 6);
});

test("a menu stays in the window, and a press elsewhere puts it away", async () => {
  await rightClick([1430, 890]);
  const box = await page.getByRole("menu").boundingBox();
  expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(1440);
  expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(900);
  await page.mouse.click(...at(2.5, 1.6));
  expect(await page.getByRole("menu").count()).toBe(0);
});

test("axe finds nothing in the menu by day and by night", async () => {
  await rightClick(at(2, 1));
  await page.getByRole("menu").waitFor();
  expect(await axeFinds(page)).toEqual([]);
  await page.keyboard.press("Escape");
  await word(page, "Night").click();
  await rightClick(at(2, 1));
  await page.getByRole("menu").waitFor();
  expect(await axeFinds(page)).toEqual([]);
  await page.keyboard.press("Escape");
  await word(page, "Day").click();
});
