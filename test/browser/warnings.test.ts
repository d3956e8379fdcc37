/** What React's development build finds wrong in the page's code (a list without keys, a field that changes its nature,
 * an element where none may stand) it says on the console. All other tests run the build that people get, which says
 * nothing of it. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import { type Served, served } from "../support/served.ts";
import { dragMouse, drawn, partOf, partStops, placesOn, saved, tabOnto, told, word } from "./sheet.ts";

let development: Served;
beforeAll(async () => {
  development = await served("warned", "development");
});
afterAll(() => development.close());

test("React warns of nothing while each slip is opened, and parts are chosen, dragged, doubled and taken back", async () => {
  const { page, complaints, close } = await openApp({}, development.address);
  await drawn(page);
  await told(page, /delivers/);
  const scripts = await page.evaluate(() =>
    Promise.all(
      [...document.querySelectorAll<HTMLScriptElement | HTMLLinkElement>("script[src], link[rel=modulepreload]")].map(
        async (tag) => (await fetch("src" in tag ? tag.src : tag.href)).text(),
      ),
    ),
  );
  // Only the development build has this function.
  expect(scripts.some((script) => script.includes("jsxDEV"))).toBe(true);

  const slips = page.getByRole("navigation", { name: "The sheet" }).locator("[aria-pressed]");
  const names = await slips.allTextContents();
  expect(names).toEqual(
    expect.arrayContaining(["New", "Samples", "Drawings", "Hand out", "Steps", "Faults", "What if"]),
  );
  for (const name of names) {
    await word(page, name).click();
    await page.locator("#sheet-slip").waitFor();
    await page.keyboard.press("Escape");
  }
  for (const title of [/to look at/, /^This drawing/]) {
    await page.getByRole("button", { name: title }).click();
    await page.keyboard.press("Escape");
  }
  const at = await placesOn(page);
  const { x, baseLevel } = partOf(await saved(page), "vessel");
  const parts = partStops(page);
  for (let i = 0; i < (await parts.count()); i++) {
    await tabOnto(page, parts.nth(i));
    await page.locator("#slip").waitFor();
  }
  await page.keyboard.press("Shift+F10");
  await page.getByRole("menu").waitFor();
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await dragMouse(page, at(x + 0.35, baseLevel + 0.3), at(x + 0.6, baseLevel + 0.4));
  await page.keyboard.press("Control+d");
  await told(page, /delivers/);
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  expect(complaints).toEqual([]);
  await close();
}, 60_000);
