/** The sheet as it looks: samples in light, dark and print, compared with kept pictures (`pictures/`, at half size).
 *
 * Where a change of the look is meant, look at the new pictures in `.cache/pictures/` and keep them:
 *
 *     KEEP_PICTURES=1 npx vitest run --config test/vitest.config.ts test/browser/pictures.test.ts
 *
 * The page brings its own typeface and sets it unhinted, so no font of the machine is in them, and its settings should not
 * be either. Other Chromiums and other hinting were not run here. What another build may lay differently are greys along
 * edges; at half size each is a quarter of a pixel, differences under `slight` do not count, and `most` others
 * may. A label that moved by two pixels is twice as many; the last tests move one, and take a line away. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import pixelmatch from "pixelmatch";
import type { Page } from "playwright-core";
import { PNG } from "pngjs";
import { expect, test } from "vitest";
import { mmOfPx, pxOfMm, type Rect } from "../../editor/sheet/transform.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { sceneOf } from "../scene/sheets.ts";
import { openApp, openDrawing } from "../support/app.ts";
import { drawn, told } from "./sheet.ts";

const kept = new URL("pictures/", import.meta.url);
const seen = new URL("../../.cache/pictures/", import.meta.url);
/** of 1: how far a pixel may be off in brightness and colour */
const slight = 0.2;
/** pixels that may differ by more */
const most = 12;

const window_ = { width: 1024, height: 768 };
type Look = "day" | "night" | "print";
const samples: readonly (readonly [string, ...Look[]])[] = [
  ["courtyard-bog", "day", "night", "print"],
  ["spilling-wall", "day"],
];

test.each(samples)("%s looks as it did", async (sample, ...looks) => {
  const { page, close } = await openApp({ viewport: window_, reducedMotion: "reduce", colorScheme: "light" });
  // The printed sheet bears its date.
  await page.clock.setFixedTime(new Date(2026, 2, 21, 12));
  await drawn(page);
  await openDrawing(page, `samples/${sample}.json`);
  await told(page, /delivers/);
  await settled(page);

  const found: string[] = [];
  for (const look of looks) {
    if (look === "night") {
      await page.emulateMedia({ colorScheme: "dark" });
      await settled(page);
    }
    found.push(verdictOn(`${sample}-${look}`, halved(look === "print" ? await printed(page) : await sheetOf(page))));
  }
  await close();

  expect(found).toEqual(looks.map(() => "as kept"));
});

/** The labels of the kept picture, px of its own. */
function labelsOn(sample: string): readonly Rect[] {
  const { labels } = sceneOf(readDrawing(`../../samples/${sample}.json`), mm(window_), { headroom: mmOfPx(62) });
  const px = (length: number): number => Math.round(pxOfMm(length) / 2);
  return labels.map(({ box: { x, y, width, height } }) => ({
    x: px(x),
    y: px(y),
    width: px(width),
    height: px(height),
  }));
}

const picture = (): PNG => PNG.sync.read(readFileSync(new URL("courtyard-bog-day.png", kept)));

test("a label two pixels aside is seen, the smallest too", () => {
  const labels = labelsOn("courtyard-bog");
  expect(labels.length).toBeGreaterThan(5);

  for (const { x, y, width, height } of labels) {
    const moved = picture();
    PNG.bitblt(picture(), moved, x, y, width, height, x + 1, y);
    expect(difference(picture(), moved)).toBeGreaterThan(most);
  }
});

test("a line taken away is seen", () => {
  const without = picture();
  for (let x = 150; x < 200; x++) for (let y = 0; y < without.height; y++) clear(without, x, y);

  expect(difference(picture(), without)).toBeGreaterThan(most);
});

function clear(png: PNG, x: number, y: number): void {
  const at = 4 * (y * png.width + x);
  if ((png.data[at] ?? 255) < 100) png.data.fill(250, at, at + 3);
}

const mm = ({ width, height }: { width: number; height: number }) => ({
  width: mmOfPx(width),
  height: mmOfPx(height),
});

/** Until the sheet has not changed for a while: the whole answer comes some time after the first. */
async function settled(page: Page): Promise<void> {
  let before = "";
  const isSame = async (): Promise<boolean> => {
    const now = await urlOf(page);
    const same = now === before;
    before = now;
    return same;
  };
  await expect.poll(isSame, { timeout: 10_000, interval: 250 }).toBe(true);
}

/** All the sheet's canvases on each other, without what floats over them. */
const urlOf = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const layers = [...document.querySelectorAll<HTMLCanvasElement>(".stage canvas")];
    const whole = document.createElement("canvas");
    whole.width = layers[0]?.width ?? 1;
    whole.height = layers[0]?.height ?? 1;
    const context = whole.getContext("2d");
    for (const layer of layers) context?.drawImage(layer, 0, 0);
    return whole.toDataURL("image/png");
  });

async function sheetOf(page: Page): Promise<PNG> {
  const url = await urlOf(page);
  return PNG.sync.read(Buffer.from(url.slice(url.indexOf(",") + 1), "base64"));
}

/** The first printed page, at 96 px to an inch. */
async function printed(page: Page): Promise<PNG> {
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print" });
  await page.setViewportSize({ width: 1123, height: 794 });
  return PNG.sync.read(await page.screenshot());
}

/** `as kept`, or where to look. */
function verdictOn(name: string, now: PNG): string {
  const file = new URL(`${name}.png`, kept);
  mkdirSync(seen, { recursive: true });
  writeFileSync(new URL(`${name}.png`, seen), small(now));
  if (process.env.KEEP_PICTURES) {
    mkdirSync(kept, { recursive: true });
    writeFileSync(file, small(now));
  }
  const before = PNG.sync.read(readFileSync(file));
  if (before.width !== now.width || before.height !== now.height) return `${name}: another size`;
  const off = difference(before, now, `${name}-difference.png`);
  return off <= most ? "as kept" : `${name}: ${off} pixels differ, see .cache/pictures/${name}-difference.png`;
}

function difference(a: PNG, b: PNG, saveAs?: string): number {
  const shown = new PNG({ width: a.width, height: a.height });
  const off = pixelmatch(a.data, b.data, shown.data, a.width, a.height, { threshold: slight });
  if (saveAs && off > most) writeFileSync(new URL(saveAs, seen), PNG.sync.write(shown));
  return off;
}

/** Four pixels as one: half the size, and a quarter of what happens along an edge. */
function halved(png: PNG): PNG {
  const half = new PNG({ width: png.width >> 1, height: png.height >> 1 });
  for (let y = 0; y < half.height; y++)
    for (let x = 0; x < half.width; x++)
      for (let c = 0; c < 4; c++) {
        const at = (dx: number, dy: number): number => png.data[4 * ((2 * y + dy) * png.width + 2 * x + dx) + c] ?? 0;
        half.data[4 * (y * half.width + x) + c] = (at(0, 0) + at(1, 0) + at(0, 1) + at(1, 1)) / 4;
      }
  return half;
}

const small = (png: PNG): Buffer => PNG.sync.write(png, { colorType: 2, deflateLevel: 9, filterType: -1 });
