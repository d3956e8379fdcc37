/** In a drag only the places that change are painted. What stands on the sheet must be what painting all of it gives. */
import pixelmatch from "pixelmatch";
import type { Page } from "playwright-core";
import { PNG } from "pngjs";
import { expect, test } from "vitest";
import { openApp, openDrawing } from "../support/app.ts";
import { drawn, partOf, placesOn, saved, told } from "./sheet.ts";

test("a drag leaves no trace on the sheet of where it was", async () => {
  const { page, close } = await openApp({ reducedMotion: "reduce", colorScheme: "light" });
  await drawn(page);
  await openDrawing(page, "samples/courtyard-bog.json");
  await told(page, /delivers/);
  const at = await placesOn(page);
  const { x, baseLevel } = partOf(await saved(page), "vessel");
  const from = at(x + 0.5, baseLevel + 0.3);
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let k = 1; k <= 24; k++) await page.mouse.move(from[0] + 60 * Math.sin(k / 4), from[1] - 20 * Math.sin(k / 3));
  await still(page);

  const step = await pixels(page);
  // Other colours and back: every pixel is painted anew.
  await page.emulateMedia({ colorScheme: "dark" });
  await expect.poll(async () => (await pixels(page)) !== step).toBe(true);
  await page.emulateMedia({ colorScheme: "light" });
  await still(page);

  // Edges come out a shade different where they were laid on other layers before; a trace is a whole line or letter.
  const [a, b] = [pngOf(step), pngOf(await pixels(page))];
  expect(pixelmatch(a.data, b.data, undefined, a.width, a.height, { threshold: 0.2 })).toBeLessThan(12);
  await page.mouse.up();
  await close();
});

test("what is dragged zoomed in stays under the frame, the ruler and the strip", async () => {
  const { page, close } = await openApp({ reducedMotion: "reduce", colorScheme: "light" });
  await drawn(page);
  await openDrawing(page, "samples/side-by-side.json");
  await told(page, /delivers/);
  await page.mouse.move(850, 330);
  await page.keyboard.down("Control");
  for (let k = 0; k < 3; k++) await page.mouse.wheel(0, -100);
  await page.keyboard.up("Control");
  await still(page);
  // The desk and the frame's lines at either side.
  const edges = [
    { x: 0, y: 0, width: 46, height: 900 },
    { x: 1420, y: 0, width: 20, height: 900 },
  ];
  const seen = () =>
    Promise.all(edges.map(async (clip) => pngOf((await page.screenshot({ clip })).toString("base64"))));
  const before = await seen();

  await page.mouse.move(950, 430);
  await page.mouse.down();
  for (let k = 1; k <= 10; k++) await page.mouse.move(950 + 3 * k, 430 + 2 * k);
  await still(page);

  for (const [k, now] of (await seen()).entries()) {
    const { data, width, height } = before[k] as PNG;
    expect(pixelmatch(now.data, data, undefined, width, height, { threshold: 0.2 })).toBeLessThan(12);
  }
  await page.mouse.up();
  await close();
});

test("the slip's leader leads to where a part was set down", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await openDrawing(page, "samples/courtyard-bog.json");
  await told(page, /delivers/);
  const at = await placesOn(page);
  const before = partOf(await saved(page), "pump");
  const from = at(before.x, before.z as number);
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let k = 1; k <= 10; k++) await page.mouse.move(from[0] + 20 * k, from[1] - k);
  await page.mouse.up();

  const { x, z } = partOf(await saved(page), "pump");
  expect(x).toBeGreaterThan(before.x + 0.5);
  const [left, top] = at(x, z as number);
  const dot = page.locator("svg.leader circle");
  await expect.poll(async () => Math.abs(Number(await dot.getAttribute("cx")) - left)).toBeLessThan(14);
  expect(Math.abs(Number(await dot.getAttribute("cy")) - top)).toBeLessThan(14);
  await close();
});

/** The worker has answered for where the hand is, and that is painted. */
async function still(page: Page): Promise<void> {
  let before = "";
  const same = async (): Promise<boolean> => {
    const now = await pixels(page);
    const isSame = now === before;
    before = now;
    return isSame;
  };
  await expect.poll(same, { timeout: 10_000, interval: 400 }).toBe(true);
}

/** As it is seen: in a drag the sheet is several canvases over each other. */
const pixels = async (page: Page): Promise<string> => (await page.screenshot()).toString("base64");

const pngOf = (png: string): PNG => PNG.sync.read(Buffer.from(png, "base64"));
