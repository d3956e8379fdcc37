/** What should not be done, done by real mouse and keys: each ends in a drawing that can be read, or in a refusal in
 * words; nothing is lost, and undo gives back what was. */
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { readSection, writeSection } from "../../hydraulics/index.ts";
import type { App } from "../support/app.ts";
import { dragMouse, type Px, partStops, saved, savedText, tabOnto, word } from "./sheet.ts";
import { openYard, partById as part } from "./yard.ts";

let app: App;
let page: Page;
let at: (x: number, z: number) => Px;
let start: string;

beforeAll(async () => {
  ({ app, at } = await openYard());
  page = app.page;
  start = await savedText(page);
});

afterEach(async () => {
  const text = await savedText(page);
  const read = readSection(text);
  expect(read.ok && writeSection(read.value)).toBe(text);
  await leave();
  for (let k = 0; k < 12 && (await word(page, "Undo").isEnabled()); k++) await page.keyboard.press("Control+z");
  expect(await savedText(page)).toBe(start);
  await leave();
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

async function leave(): Promise<void> {
  for (let k = 0; k < 3; k++) await page.keyboard.press("Escape");
}

test("nonsense in any field of any part keeps the old value and says what is understood", async () => {
  const stops = partStops(page);
  let fields = 0;
  for (let k = 0; k < (await stops.count()); k++) {
    await tabOnto(page, stops.nth(k));
    const inputs = page.locator("#slip .field > input");
    for (let f = 0; f < (await inputs.count()); f++) {
      const input = inputs.nth(f);
      const label = await input.evaluate((element: HTMLInputElement) => element.labels?.[0]?.textContent ?? "");
      // Any text is a name.
      if (/name|label|nominal|sold as|called/i.test(label)) continue;
      const stood = await input.inputValue();
      await input.fill("rather much");
      await input.press("Enter");
      expect(await page.locator("#slip .trouble").first().textContent(), label).toMatch(/understood/i);
      expect(await input.inputValue(), label).toBe(stood);
      fields += 1;
    }
  }
  expect(fields).toBeGreaterThan(20);
  expect(await savedText(page)).toBe(start);
}, 60_000);

test("a pipe's end let go on the pipe itself is no tee into itself", async () => {
  await page.mouse.click(...at(2, 1));
  await dragMouse(page, at(4, 0.1), at(1.5, 1));

  expect(part(await saved(page), "supply").to).not.toHaveProperty("pipe");
});

test("two pipes that would hang on each other are refused", async () => {
  await page.mouse.click(...at(3.2, 0.6));
  await dragMouse(page, at(2.6, 0.1), at(2, 1));
  expect(part(await saved(page), "return").to).toMatchObject({ pipe: "supply" });
  await leave();
  await page.mouse.click(...at(1.2, 1));
  await dragMouse(page, at(4, 0.1), at(3, 0.64));

  expect(part(await saved(page), "supply").to).not.toMatchObject({ pipe: "return" });
});

test("a vessel dragged over the upper edge of the sheet is still on the drawing, and Fit finds it", async () => {
  const [x, y] = at(4.9, 0.55);
  await dragMouse(page, [x, y], [x, -260]);
  expect(part(await saved(page), "trough").baseLevel).toBeGreaterThan(0.5);
  await leave();
  await word(page, "Fit").click();
  await page.waitForTimeout(200);
  await tabOnto(page, partStops(page, /^Trough/));
  await page.getByLabel("Base level").fill("1000 m");
  await page.getByLabel("Base level").press("Enter");
  expect(await page.locator("#slip .trouble").first().textContent()).toMatch(/expected a level/);
});

test("a rim pulled under its base stops above it", async () => {
  await word(page, "Fit").click();
  await page.mouse.click(...at(4.9, 0.55));
  await dragMouse(page, at(4.6, 0.8), at(4.6, -0.4));

  const { baseLevel, rimLevel } = part(await saved(page), "trough");
  expect(rimLevel).toBeGreaterThan(baseLevel);
});

test("a pond's bed pulled over its water stays a pond", async () => {
  await page.mouse.click(...at(1.5, -0.4));
  await dragMouse(page, at(1.5, -0.7), at(1.5, 0.5));

  const { bedLevel, waterLevel, rimLevel } = part(await saved(page), "basin");
  expect(bedLevel).toBeLessThanOrEqual(waterLevel);
  expect(bedLevel).toBeLessThan(rimLevel);
  expect(waterLevel).toBeLessThanOrEqual(rimLevel);
});

test("a pipe teed into another stays where it was, open, when that one is deleted", async () => {
  await word(page, "Pipe").click();
  await dragMouse(page, at(2, 1), at(1.4, 1.5));
  const tee = (await saved(page)).parts.findLast(({ kind }) => kind === "pipe");
  expect(tee?.from).toMatchObject({ pipe: "supply" });
  await leave();
  await page.mouse.click(...at(2.6, 1));
  await page.keyboard.press("Delete");

  const left = await saved(page);
  expect(left.parts.map(({ id }) => id)).not.toContain("supply");
  const loose = part(left, tee?.id ?? "");
  expect(loose.from).toMatchObject({ open: true });
  expect(loose.from.x).toBeCloseTo(2, 1);
  expect(loose.from.z).toBeCloseTo(1, 1);
});

test("a pipe let go where it began is no pipe", async () => {
  await word(page, "Pipe").click();
  const [x, y] = at(2.2, 1.5);
  await dragMouse(page, [x, y], [x + 60, y]);
  await page.keyboard.press("Control+z");
  await word(page, "Pipe").click();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 60, y, { steps: 3 });
  await page.mouse.move(x + 1, y, { steps: 3 });
  await page.mouse.up();
  await leave();

  expect(await savedText(page)).toBe(start);
});

test("a field changed with several parts chosen changes all of them, in one step", async () => {
  await page.mouse.click(...at(2, 1));
  const slip = await page.locator("#slip").boundingBox();
  const free = [2.8, 3.1, 3.4, 3.9]
    .map((x) => at(x, 0.61))
    .find(([x]) => !slip || x < slip.x || x > slip.x + slip.width);
  if (!free) throw new Error("the slip of one pipe lies all over the other");
  await page.keyboard.down("Shift");
  await page.mouse.click(...free);
  await page.keyboard.up("Shift");
  await expect.poll(() => page.locator("#slip h2").textContent()).toBe("2 parts");
  const extra = page.locator("#slip").getByLabel("Length not drawn");
  await extra.fill("5 ft");
  await extra.press("Enter");
  const longer = await saved(page);
  expect([part(longer, "supply").extraLength, part(longer, "return").extraLength]).toEqual([1.524, 1.524]);

  await page.locator("#slip").getByLabel("Size").selectOption({ label: "50, bore 45.2 mm" });
  const sized = await saved(page);
  expect([part(sized, "supply").bore, part(sized, "return").bore]).toEqual([0.0452, 0.0452]);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  expect(await saved(page)).toEqual(longer);
});
