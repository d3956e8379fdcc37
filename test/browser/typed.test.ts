/** What is typed and can not be: each is said in the words and units of the sheet. */
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import type { App } from "../support/app.ts";
import {
  dragMouse,
  newSheet,
  openText,
  type Px,
  partStops,
  saved,
  savedText,
  tabOnto,
  takenBack,
  word,
} from "./sheet.ts";
import { openYard, partById } from "./yard.ts";

let app: App;
let page: Page;
let at: (x: number, z: number) => Px;

beforeAll(async () => {
  ({ app, at } = await openYard());
  page = app.page;
});

beforeEach(() => takenBack(page));

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

async function typed(part: RegExp, label: string, text: string): Promise<void> {
  await tabOnto(page, partStops(page, part));
  const field = page.locator("#slip").getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press("Enter");
}

test("in US units a refusal names feet and inches alone", async () => {
  await word(page, "Metric").click();

  await typed(/^Trough/, "Rim level", "4000");
  const words = (await page.locator("#slip .trouble").textContent()) ?? "";
  expect(words).toMatch(/Trough, Rim level: expected a level from −328\.08 ft to \+328\.08 ft, found 4000 ft\./);
  expect(await page.locator(".message").count()).toBe(0);
  await typed(/^Trough/, "Rim level", "-3");
  expect(await page.locator("#slip .trouble").textContent()).toMatch(
    /a rim above the base, which lies at 0 ft, found −3 ft\./,
  );
  await typed(/^Trough/, "Rim level", "nonsense");
  expect(await page.locator("#slip .trouble").textContent()).toMatch(/understood are 1 ft 6 in,/);

  await word(page, "US units").click();
});

test("a refusal is gone once another field is taken, or the drawing has changed", async () => {
  await typed(/^Trough/, "Rim level", "nonsense");
  const trouble = page.locator("#slip .trouble");
  expect(await trouble.count()).toBe(1);
  // So long it stays, whatever is pressed: nobody has read it yet.
  await page.waitForTimeout(650);
  const slip = page.locator("#slip");
  await slip.getByLabel("Left edge").fill("more nonsense");
  await slip.getByLabel("Left edge").press("Enter");
  expect(await trouble.count()).toBe(2);
  await page.waitForTimeout(650);
  await slip.getByLabel("Base level").fill("0.05 m");
  await slip.getByLabel("Base level").press("Enter");
  await expect.poll(() => trouble.count()).toBe(0);

  await typed(/^Trough/, "Rim level", "nonsense");
  await page.waitForTimeout(650);
  await page.keyboard.press("Control+z");
  await expect.poll(() => trouble.count()).toBe(0);
});

test("the sizes that are sold have their bores in the units shown", async () => {
  const bores = async (): Promise<readonly string[]> =>
    (await page.locator("#slip").getByLabel("Size", { exact: true }).locator("optgroup option").allTextContents()).map(
      (text) => text.replace(/^.*, bore /, ""),
    );
  await tabOnto(page, partStops(page, /^Supply/));
  expect((await bores()).filter((bore) => !/^[\d.]+ mm$/.test(bore))).toEqual([]);
  await word(page, "Metric").click();
  expect((await bores()).length).toBeGreaterThan(60);
  expect((await bores()).filter((bore) => !/^[\d.]+ in$/.test(bore))).toEqual([]);
  // ASTM D1785: 1.050 in outside, walls of 0.113 in at least.
  expect(await page.locator("#slip").getByLabel("Size", { exact: true }).textContent()).toContain(
    "¾ in, bore 0.823 in",
  );
  await word(page, "US units").click();
});

test("pipes of several sizes have no one size, and none of theirs stands for the others", async () => {
  await tabOnto(page, partStops(page, /^Return/));
  const size = page.locator("#slip").getByLabel("Size", { exact: true });
  await size.selectOption({ label: "50, bore 45.2 mm" });
  // What it has is in the list once, among its like.
  expect(await size.locator(":scope > option").count()).toBe(0);
  await page.keyboard.press("Escape");
  await page.mouse.click(...at(3.1, 0.61));
  await expect.poll(() => page.locator("#slip h2").textContent()).toBe("Return");
  const slip = await page.locator("#slip").boundingBox();
  const free = [0.7, 1.3, 2, 2.6, 3.2]
    .map((x) => at(x, 1))
    .find(([x]) => !slip || x < slip.x || x > slip.x + slip.width);
  if (!free) throw new Error("the slip of one pipe lies all over the other");
  await page.keyboard.down("Shift");
  await page.mouse.click(...free);
  await page.keyboard.up("Shift");
  await expect.poll(() => page.locator("#slip h2").textContent()).toBe("2 parts");
  expect(await size.inputValue()).toBe("various");
  expect(await size.locator(":scope > option").allTextContents()).toEqual(["various"]);
});

test("what was typed is kept when another part is pressed, and the part that is pulled then comes along", async () => {
  await tabOnto(page, partStops(page, /^Trough/));
  await page.locator("#slip").getByLabel("Rim level").fill("0.9 m");
  await page.mouse.click(...at(0.8, -0.2));
  await expect.poll(() => page.locator("#slip h2").textContent()).toBe("Basin");
  expect(partById(await saved(page), "trough").rimLevel).toBe(0.9);

  const { x } = partById(await saved(page), "basin");
  await tabOnto(page, partStops(page, /^Trough/));
  await page.locator("#slip").getByLabel("Rim level").fill("0.95 m");
  await dragMouse(page, at(0.8, -0.2), at(0.6, -0.2));
  const both = await saved(page);
  expect(partById(both, "trough").rimLevel).toBe(0.95);
  expect(partById(both, "basin").x).toBeLessThan(x - 0.1);
});

test("a number is not taken for another way of writing numbers", async () => {
  await typed(/^Trough/, "Clogging", "0x10");

  expect(await page.locator("#slip .trouble").textContent()).toMatch(/Understood is a number/);
  expect(partById(await saved(page), "trough").clogging).toBe(undefined);
});

test("a level that is settled elsewhere is told", async () => {
  await typed(/^Lift/, "Intake level", "40 m");

  const { z } = partById(await saved(page), "lift");
  expect(z).toBeLessThan(0.1);
  expect(await page.getByRole("alert").textContent()).toMatch(
    /^Intake level: 40 m lies outside what it belongs to, so it is \+?[\d.]+ m now/,
  );
});

test("an empty sheet has nothing to look at", async () => {
  await newSheet(page);
  await page.locator("button.on-picture").first().click();

  expect(await page.locator("#sheet-slip").textContent()).toMatch(/Nothing is drawn yet/);
  expect(await page.locator("button.on-picture").first().textContent()).toBe("Nothing drawn yet");
});

test("a field that is entered and left as it was changes nothing, though it shows fewer digits", async () => {
  await openText(page, "two-pumps.json", await readFile("samples/two-pumps.json", "utf8"));
  await page.getByRole("heading", { name: /^Two pumps/ }).waitFor({ state: "attached" });
  await word(page, "Metric").click();
  const before = await savedText(page);
  const stops = partStops(page);
  const texts: string[] = [];

  for (let k = 0; k < (await stops.count()); k++) {
    await tabOnto(page, stops.nth(k));
    for (const field of await page.locator("#slip input, #slip textarea").all()) {
      texts.push(await field.inputValue());
      await field.focus();
      if ((await field.evaluate((each) => each.tagName)) === "INPUT") await page.keyboard.press("Enter");
      await page.keyboard.press("Tab");
    }
    await page.keyboard.press("Escape");
  }

  expect(texts.filter((text) => /(ft|in|gph)$/.test(text)).length).toBeGreaterThan(40);
  expect(texts.filter((text) => /\d\.\d{4,} ft$/.test(text))).toEqual([]);
  expect(await word(page, "Undo").isEnabled()).toBe(false);
  expect(await savedText(page)).toBe(before);
  await word(page, "US units").click();
});
