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
