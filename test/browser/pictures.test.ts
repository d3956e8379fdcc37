/** The sheet as it looks: samples in light, dark and print, compared with kept pictures (`pictures/`).
 *
 * Where a change of the look is meant, look at the new pictures in `.cache/pictures/` and keep them:
 *
 *     KEEP_PICTURES=1 npx vitest run --config test/vitest.config.ts test/browser/pictures.test.ts
 *
 * The page brings its own typeface, so no font of the machine is in them. Two builds of Chromium may still lay other
 * greys along the edges of letters and lines: pixels that pixelmatch takes for such edges, and differences under
 * `slight`, do not count, and a few tens of others may. Measured with the letters' hinting turned off, which changes
 * every edge of every letter: see `most`. What is moved, missing or of another colour is hundreds of pixels; the last
 * tests move one label, by two pixels, and take away one line. */
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
const most = 60;

const window_ = { width: 1024, height: 768 };
const samples = ["courtyard-bog", "spilling-wall"] as const;

test.each(samples)("%s looks as it did, by day, by night and in print", async (sample) => {
  const { page, close } = await openApp({ viewport: window_, reducedMotion: "reduce", colorScheme: "light" });
  // The printed sheet bears its date.
  await page.clock.setFixedTime(new Date(2026, 2, 21, 12));
  await drawn(page);
  await openDrawing(page, `samples/${sample}.json`);
  await told(page, /delivers/);
  await settled(page);

  const looks: [string, PNG][] = [["day", await sheetOf(page)]];
  await page.emulateMedia({ colorScheme: "dark" });
  await settled(page);
  looks.push(["night", await sheetOf(page)]);
  looks.push(["print", await printed(page)]);
  await close();

  expect(looks.map(([look, picture]) => verdictOn(`${sample}-${look}`, picture))).toEqual(looks.map(() => "as kept"));
});

const picture = (): PNG => PNG.sync.read(readFileSync(new URL("courtyard-bog-day.png", kept)));

test("a label two pixels aside is seen", () => {
  const { labels } = sceneOf(readDrawing("../../samples/courtyard-bog.json"), mm(window_), { headroom: mmOfPx(62) });
  const small = labels.map(({ box }) => box).sort((a, b) => a.width * a.height - b.width * b.height)[0] as Rect;
  const moved = picture();
  const [x, y] = [Math.round(pxOfMm(small.x)), Math.round(pxOfMm(small.y))];
  PNG.bitblt(picture(), moved, x, y, Math.ceil(pxOfMm(small.width)), Math.ceil(pxOfMm(small.height)), x + 2, y);

  expect(difference(picture(), moved)).toBeGreaterThan(most);
});

test("a line taken away is seen", () => {
  const without = picture();
  for (let x = 300; x < 400; x++) for (let y = 0; y < without.height; y++) clear(without, x, y);

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
  if (process.env.COUNT) console.log(name, off);
  return off <= most ? "as kept" : `${name}: ${off} pixels differ, see .cache/pictures/${name}-difference.png`;
}

function difference(a: PNG, b: PNG, saveAs?: string): number {
  const shown = new PNG({ width: a.width, height: a.height });
  const off = pixelmatch(a.data, b.data, shown.data, a.width, a.height, { threshold: slight });
  if (saveAs && off > most) writeFileSync(new URL(saveAs, seen), PNG.sync.write(shown));
  return off;
}

/** As few bytes as do: sixteen steps a colour are well within what counts as slight. */
function small(png: PNG): Buffer {
  const coarse = new PNG({ width: png.width, height: png.height });
  png.data.forEach((value, i) => {
    coarse.data[i] = i % 4 === 3 ? 255 : Math.round(value / 17) * 17;
  });
  return PNG.sync.write(coarse, { colorType: 2, deflateLevel: 9, filterType: 0 });
}
