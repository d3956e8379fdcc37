/** The first start: a solved example, and four words of help where they cover nothing. */
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import { drawn, openText, partStops, tabOnto, told, word } from "./sheet.ts";
import { yard } from "./yard.ts";

const help = ".help";

/** Shown where there is a free place; else it is there for nobody. */
const shown = (page: Page): Promise<boolean> => page.locator(help).isVisible();

async function firstStart(options: Parameters<typeof openApp>[0] = {}) {
  const app = await openApp(options);
  await drawn(app.page);
  await told(app.page, /delivers/);
  return app;
}

test.each([
  [1440, 900],
  [1024, 768],
  [820, 1180],
])("four words stand beside the example in a window of %i by %i, on bare paper", async (width, height) => {
  const { page, complaints, close } = await firstStart({ viewport: { width, height } });
  await expect.poll(() => shown(page)).toBe(true);

  expect(await page.locator(`${help} dt`).allTextContents()).toEqual(["Place", "Pull", "Drag", "Read"]);
  const box = await page.locator(help).boundingBox();
  expect(box && box.x >= 0 && box.x + box.width <= width).toBe(true);
  expect(await coloursUnder(page, box)).toBe(1);
  for (const other of await page.locator(".upper-edge > *").all()) {
    const over = await other.boundingBox();
    expect(over && box && overlap(over, box)).toBe(false);
  }
  expect(complaints).toEqual([]);
  await close();
});

type Rect = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
const overlap = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Colours of the drawing itself, without what floats over it. */
function coloursUnder(page: Page, box: Rect | null) {
  return page.evaluate((at) => {
    const colours = new Set<string>();
    for (const layer of document.querySelectorAll<HTMLCanvasElement>(".stage canvas")) {
      const scale = layer.width / layer.getBoundingClientRect().width;
      const whole = document.createElement("canvas");
      whole.width = layer.width;
      whole.height = layer.height;
      const context = whole.getContext("2d");
      context?.drawImage(layer, 0, 0);
      if (!at || !context) return 0;
      const { data } = context.getImageData(at.x * scale, at.y * scale, at.width * scale, at.height * scale);
      for (let k = 0; k < data.length; k += 4)
        if ((data[k + 3] ?? 0) > 0) colours.add([data[k], data[k + 1], data[k + 2]].join());
    }
    return colours.size;
  }, box);
}

test("in a hand's window, where there is no free place, they are left out", async () => {
  for (const [width, height] of [
    [390, 844],
    [844, 390],
  ] as const) {
    const { page, close } = await firstStart({ viewport: { width, height } });
    expect(await shown(page)).toBe(false);
    await close();
  }
});

const goesWith: readonly (readonly [string, (page: Page) => Promise<unknown>])[] = [
  ["a press on the sheet", (page) => page.mouse.click(1300, 140)],
  ["a part that the keyboard chooses", (page) => tabOnto(page, partStops(page).first())],
  ["another drawing", (page) => openText(page, "yard.json", yard)],
];

test.each(goesWith)("they go for good with %s", async (_, act) => {
  const { page, close } = await firstStart();
  await expect.poll(() => shown(page)).toBe(true);
  // A slip only takes their place for a while.
  await word(page, "Keys").click();
  expect(await shown(page)).toBe(false);
  await word(page, "Keys").click();
  expect(await shown(page)).toBe(true);

  await act(page);
  await expect.poll(() => page.locator(help).count()).toBe(0);
  for (let k = 0; k < 3; k++) await page.keyboard.press("Escape");
  expect(await page.locator(help).count()).toBe(0);
  await page.reload();
  await drawn(page);
  await told(page, /delivers/);
  expect(await page.locator(help).count()).toBe(0);
  await close();
});
