/** A window of 320 px, which is one of 1280 px seen four times as large: whatever a slip holds is reached by scrolling down
 * alone, and no figure stands apart from its unit (WCAG 2.2, 1.4.10; the drawing itself is exempt). */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type App, openApp } from "../support/app.ts";
import { drawn, partStops, tabOnto, word } from "./sheet.ts";

let app: App;
let page: Page;

beforeAll(async () => {
  app = await openApp({ viewport: { width: 320, height: 640 } });
  page = app.page;
  await drawn(page);
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

/** What of the open slip, and of the words on the sheet's edge, lies beside the window or can not be scrolled to. */
const beside = (): Promise<readonly string[]> =>
  page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    const slip = document.querySelector("#slip, #sheet-slip");
    const scrolls = (element: Element): boolean => {
      for (let each = element.closest(".scroll"); each; each = each.parentElement?.closest(".scroll") ?? null)
        if (/auto|scroll/.test(getComputedStyle(each).overflowX)) return true;
      return false;
    };
    const found = [
      ...document.querySelectorAll("nav button"),
      ...(slip?.querySelectorAll("*:not(canvas)") ?? []),
    ].filter((element) => {
      const { left, right, width: wide } = element.getBoundingClientRect();
      const isSeen = element.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true });
      return isSeen && wide > 1 && (left < -1 || right > width + 1) && !scrolls(element) && !element.closest(".hidden");
    });
    return found.map((element) => `${element.tagName} ${(element.textContent ?? "").slice(0, 30)}`);
  });

/** Figures of the open slip at whose unit a line may break. */
const parted = (): Promise<readonly string[]> =>
  page.evaluate(() => {
    const figure = /\d (?:mm|m|L|L\/h|m\/s|m\/h|m³|kg|kPa|W|%|ft|in|gph|gal|psi|lb|s|min|h)(?![\p{L}\d/])/u;
    const found: string[] = [];
    const words = document.createTreeWalker(document.querySelector("#slip, #sheet-slip") ?? document.body, 4);
    while (words.nextNode()) {
      const element = words.currentNode.parentElement;
      const text = words.currentNode.textContent ?? "";
      if (!element || element.closest("option, textarea, .hidden") || !figure.test(text)) continue;
      if (getComputedStyle(element).whiteSpaceCollapse && getComputedStyle(element).textWrapMode === "nowrap") continue;
      found.push(text);
    }
    return found;
  });

/** Words that come under the folded corner as the slip is scrolled. */
const underTheFold = (): Promise<readonly string[]> =>
  page.evaluate(() => {
    const slip = document.querySelector("#slip, #sheet-slip") ?? document.body;
    const fold = slip.getBoundingClientRect().right - Number.parseFloat(getComputedStyle(slip, "::after").width);
    return [...slip.querySelectorAll(".readings dd, .field input, .findings p")]
      .filter((element) => element.getBoundingClientRect().right > fold)
      .map((element) => `${element.tagName} ${element.textContent}`);
  });

async function look(): Promise<void> {
  expect(await beside()).toEqual([]);
  expect(await underTheFold()).toEqual([]);
  expect(await parted()).toEqual([]);
}

async function opened(name: string): Promise<void> {
  await word(page, "Sheet").click();
  await word(page, name).click();
  await page.locator("#sheet-slip").waitFor();
}

test.each(["metric", "US"])("every slip of the sheet in %s units", async (units) => {
  if (units === "US") {
    await word(page, "Sheet").click();
    await word(page, "Metric").click();
  }
  for (const name of ["New", "Samples", "Hand out", "Faults", "What if", "Rules", "Buy", "Parts", "Keys"]) {
    await opened(name);
    if (name === "New") await page.getByText(/^A pond of/).waitFor();
    if (name === "Faults") await page.locator(".grid-table.faults").waitFor();
    if (name === "What if") await page.locator(".grid-table.sweep").waitFor();
    await look();
    if (name === "Rules") {
      await word(page, "Size a pond from the start").click();
      await page.locator("#sheet-slip .readings").waitFor();
      await look();
    }
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
  }
});

test("every part's slip, with its plots read as tables", async () => {
  for (let k = 0; k < 4; k++) await page.keyboard.press("Escape");
  const stops = partStops(page);
  for (let k = 0; k < (await stops.count()); k++) {
    await tabOnto(page, stops.nth(k));
    await page.locator("#slip").waitFor();
    for (const summary of await page.locator("#slip summary").all()) await summary.click();
    await look();
    await page.keyboard.press("Escape");
  }
});

test("a window as low as it is narrow: the words are pressed, fields are reached, and what is wrong is in sight", async () => {
  await page.setViewportSize({ width: 320, height: 256 });
  await opened("New");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await tabOnto(page, partStops(page, /^Bog filter/));
  const rim = page.locator("#slip").getByLabel("Rim level");
  await rim.fill("high");
  await rim.press("Enter");

  const trouble = page.locator("#slip .trouble");
  await trouble.waitFor();
  await expect.poll(async () => ((await trouble.boundingBox())?.y ?? 999) < 250).toBe(true);
});
