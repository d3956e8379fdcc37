/** Every slip of a drawing, read in feet and gallons and in metres and litres: neither says a word of the other. */
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { openApp, openDrawing } from "../support/app.ts";
import { americanFigure, metricFigure, millimetreLevel } from "../support/otherUnits.ts";
import { drawn, partStops, type Saved, saved, tabOnto, told, word } from "./sheet.ts";

const words = ["Faults", "What if", "Rules", "Buy", "Parts", "Steps", "Hand out", "New"];

/** All that a slip says, also in lists that are folded and fields that are empty. Not how figures follow: formulas are in
 * metres, as they say. */
const textsOn = (page: Page, slip: string): Promise<readonly string[]> =>
  page.locator(slip).evaluate((root) => {
    const within = (element: Element): boolean => element.closest(".worked") === null;
    const said = [...root.querySelectorAll("p, dt, dd, th, td, li, option, legend, label, h2, h3, button, caption")]
      .filter(within)
      .filter((element) => element.querySelector("p, dt, dd, td, li, option, div") === null)
      .map((element) => element.textContent ?? "");
    const named = ["aria-label", "title", "placeholder"].flatMap((name) =>
      [...root.querySelectorAll(`[${name}]`)].map((element) => element.getAttribute(name) ?? ""),
    );
    const fields = [...root.querySelectorAll("input, textarea")].map((field) => (field as HTMLInputElement).value);
    return [...said, ...named, ...fields];
  });

/** What a person has written is nobody's to turn. */
function ownWords({ title, parts }: Saved): readonly string[] {
  const own = parts.flatMap(({ label, text, nominal }) => [label, text, nominal]);
  return [title, ...own].filter((each) => typeof each === "string" && each !== "");
}

/** Inch pipe is called so wherever it is sold. */
const inchSize = /[\d¼½¾]+ in(?=, )/g;

const without = (names: readonly string[], text: string): string =>
  names.reduce((rest, name) => rest.replaceAll(name, "…"), text);

async function allTexts(page: Page): Promise<readonly string[]> {
  const texts: string[] = [];
  const stops = partStops(page);
  for (let k = 0; k < (await stops.count()); k++) {
    await tabOnto(page, stops.nth(k));
    await page.locator("#slip").waitFor();
    texts.push(...(await textsOn(page, "#slip")));
    await page.keyboard.press("Escape");
  }
  const slips = [
    ...words.map((name) => word(page, name).last()),
    page.locator("button.on-picture").first(),
    page.locator("button.on-picture").last(),
  ];
  for (const opens of slips) {
    await opens.click();
    await page.locator("#sheet-slip").waitFor();
    // Until what it works out has come.
    let before = -1;
    await expect
      .poll(
        async () => {
          const now = (await textsOn(page, "#sheet-slip")).join().length;
          const isSame = now === before;
          before = now;
          return isSame;
        },
        { timeout: 8000, interval: 300 },
      )
      .toBe(true);
    texts.push(...(await textsOn(page, "#sheet-slip")));
    await page.keyboard.press("Escape");
  }
  return texts;
}

test("slips say it all in one system of units", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await openDrawing(page, "samples/courtyard-bog.json");
  await told(page, /delivers/);
  const names = ownWords(await saved(page));

  const inMetres = (await allTexts(page)).map((text) => without(names, text));
  await word(page, "Metric").click();
  // A remedy names its figures, and so does the step that it was.
  await tabOnto(page, partStops(page, /^Return/));
  await page.locator("#slip .offer button").first().click();
  expect(await word(page, "Undo").getAttribute("title")).toMatch(/^Undo: Make Return [\d.]+ in wide/);
  const inFeet = (await allTexts(page)).map((text) => without(names, text));

  expect(inFeet.length).toBeGreaterThan(400);
  expect(inFeet.filter((text) => metricFigure.test(text))).toEqual([]);
  // A level in a field has feet behind it.
  expect(inFeet.filter((text) => millimetreLevel.test(text) && !/ ft$/.test(text))).toEqual([]);
  expect(inMetres.filter((text) => americanFigure.test(text.replace(inchSize, "")))).toEqual([]);
  await close();
}, 90_000);
