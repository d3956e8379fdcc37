/** A maker's curve typed by real keys into the table of a pump, which already holds a stand-in. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import type { App } from "../support/app.ts";
import { partStops, saved, tabOnto, takenBack, word } from "./sheet.ts";
import { openYard, partById } from "./yard.ts";

let app: App;
let page: Page;

beforeAll(async () => {
  ({ app } = await openYard());
  page = app.page;
});

beforeEach(async () => {
  await takenBack(page);
  await tabOnto(page, partStops(page, /^Lift/));
  await word(page, "Type the maker's points instead").click();
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

const field = (name: string) => page.locator("#slip").getByLabel(name, { exact: true });

/** On to the next figure of the table, past the word that takes a point out. */
async function tabOn(): Promise<void> {
  do await page.keyboard.press("Tab");
  while (await page.evaluate(() => /^Take out point/.test(document.activeElement?.getAttribute("aria-label") ?? "")));
}

async function typeOn(figures: readonly string[]): Promise<void> {
  for (const figure of figures) {
    await page.keyboard.type(figure);
    await tabOn();
  }
}

/** As the drawing holds it, in L/h and metres. */
const curve = async (): Promise<unknown> =>
  (partById(await saved(page), "lift").curve as [number, number][]).map(([flow, head]) => [
    Number((flow * 3.6e6).toPrecision(9)),
    head,
  ]);

const troubles = () => page.locator("#slip .trouble").allTextContents();

test("five rows typed downwards are the curve, each figure a step to take back", async () => {
  await expect.poll(() => field("Flow of point 1").evaluate((each) => each === document.activeElement)).toBe(true);

  await typeOn(["0", "5", "2000", "4", "4000", "3", "6000", "1.5", "8000", "0"]);

  expect(await troubles()).toEqual([]);
  const typed = [
    [0, 5],
    [2000, 4],
    [4000, 3],
    [6000, 1.5],
    [8000, 0],
  ];
  expect(await curve()).toEqual(typed);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  expect(await curve()).not.toEqual(typed);
  await page.keyboard.press("Control+y");
  await page.keyboard.press("Control+y");
  expect(await curve()).toEqual(typed);
});

test("heads typed upwards and then flows in gallons are the curve", async () => {
  await word(page, "Metric").click();
  for (const [row, head] of [
    [5, "1"],
    [4, "6 ft"],
    [3, "12"],
    [2, "16"],
    [1, "20"],
  ] as const) {
    await field(`Head of point ${row}`).focus();
    await page.keyboard.type(head);
  }
  for (const [row, flow] of [
    [3, "900"],
    [5, "2000"],
    [1, "100"],
    [4, "1500"],
    [2, "500"],
  ] as const) {
    await field(`Flow of point ${row}`).focus();
    await page.keyboard.type(flow);
  }
  await page.keyboard.press("Enter");

  expect(await troubles()).toEqual([]);
  for (const [i, text] of ["100 gph", "500 gph", "900 gph", "1500 gph", "2000 gph"].entries())
    expect(await field(`Flow of point ${i + 1}`).inputValue()).toBe(text);
  for (const [i, text] of ["20 ft", "16 ft", "12 ft", "6 ft", "1 ft"].entries())
    expect(await field(`Head of point ${i + 1}`).inputValue()).toBe(text);
  await word(page, "US units").click();
});

test("a flow that contradicts a typed one says which, stays, and is taken once that one is mended", async () => {
  await field("Flow of point 1").focus();
  await typeOn(["0", "5", "20000", "4", "4000", "3"]);

  expect(await field("Flow of point 3").inputValue()).toBe("4000");
  expect(await troubles()).toEqual([
    "Flow of point 3: expected a flow above 20000 L/h, the flow of point 2, found 4000 L/h.",
  ]);
  await word(page, "Metric").click();
  expect(await field("Flow of point 3").inputValue()).toBe("1057 gph");
  expect((await troubles())[0]).toMatch(/above 5283\.44 gph, the flow of point 2, found 1056\.69 gph\.$/);
  await word(page, "US units").click();

  await field("Flow of point 2").fill("2000");
  await page.keyboard.press("Enter");

  expect(await troubles()).toEqual([]);
  expect(((await curve()) as number[][]).slice(0, 3)).toEqual([
    [0, 5],
    [2000, 4],
    [4000, 3],
  ]);
});

test("a figure that waits when the slip is put away is told, and Ctrl Z in the table takes back the figure before", async () => {
  await field("Flow of point 1").focus();
  await typeOn(["0", "5", "2000", "4", "1000"]);

  await page.keyboard.press("Control+z");
  expect(await field("Head of point 2").inputValue()).toBe("2.25 m");
  await page.keyboard.press("Control+y");
  expect(await field("Head of point 2").inputValue()).toBe("4 m");
  expect(await field("Flow of point 3").inputValue()).toBe("1000");

  await word(page, "Put the slip away").click();
  expect(await page.locator(".message").textContent()).toMatch(/^Flow of point 3: .* 2000 L\/h, the flow of point 2/);
});

test("what is not understood stays to be mended, and Escape brings back the figure of the drawing", async () => {
  await field("Head of point 2").fill("four");
  await page.keyboard.press("Enter");

  expect(await field("Head of point 2").inputValue()).toBe("four");
  expect((await troubles())[0]).toMatch(/understood are/);
  await page.keyboard.press("Escape");
  expect(await field("Head of point 2").inputValue()).toBe("2.25 m");
  expect(await troubles()).toEqual([]);
});

test("a table from a spreadsheet is the curve, in one step", async () => {
  const table = "L/h\tm\r\n0\t4\r\n1500\t3.2\r\n3000\t0\r\n";
  const first = field("Flow of point 1");
  const isPasted = async (): Promise<boolean> => {
    // The clipboard is the browser's, and another file's test that runs at the same time may copy over it.
    await page.evaluate((text) => navigator.clipboard.writeText(text), table);
    await first.focus();
    await page.keyboard.press("Control+v");
    return ((await curve()) as unknown[]).length === 3;
  };
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await expect.poll(isPasted).toBe(true);

  expect(await troubles()).toEqual([]);
  expect(await curve()).toEqual([
    [0, 4],
    [1500, 3.2],
    [3000, 0],
  ]);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  expect(((await curve()) as unknown[]).length).toBe(5);
});

test("a table grows downwards, and a point is taken out of what was typed", async () => {
  await field("Flow of point 1").focus();
  await typeOn(["0", "5", "2000", "4", "4000", "3", "6000", "2", "8000", "1"]);
  await word(page, "Add a point").click();

  await field("Flow of point 6").focus();
  await typeOn(["9000", "0.2"]);
  await word(page, "Take out point 2").click();

  expect(await troubles()).toEqual([]);
  expect(await curve()).toEqual([
    [0, 5],
    [4000, 3],
    [6000, 2],
    [8000, 1],
    [9000, 0.2],
  ]);
});
