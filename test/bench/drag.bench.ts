/** How smoothly a vessel is dragged: the built page in a real Chromium, times between its frames while the mouse
 * moves it. Headless and without a graphics card, so rather slower than on a desk. */
import { readFileSync, rmSync } from "node:fs";
import { type Browser, chromium, type Page } from "playwright-core";
import { build, preview } from "vite";
import { launchChromium } from "../support/chromium.ts";

const configFile = "editor/vite.config.ts";
const outDir = `${process.cwd()}/.cache/timed-${process.pid}`;

export async function benchDrag(): Promise<void> {
  const ends: (() => unknown)[] = [() => rmSync(outDir, { recursive: true, force: true })];
  try {
    await build({ configFile, logLevel: "error", build: { outDir, emptyOutDir: true } });
    const server = await preview({
      configFile,
      logLevel: "error",
      build: { outDir },
      preview: { host: "localhost", port: 0, open: false },
    });
    ends.push(() => server.close());
    const launched = await launchChromium();
    ends.push(() => launched.close());
    const browser = await chromium.connect(launched.wsEndpoint());
    await timeDrag(browser, server.resolvedUrls?.local[0] ?? "");
  } finally {
    for (const end of ends.reverse()) await end();
  }
}

async function timeDrag(browser: Browser, address: string): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript(() => Reflect.deleteProperty(window, "showOpenFilePicker"));
  // The first listener takes a moment to reach the browser; a file window that opens in it would be lost.
  page.on("filechooser", () => {});
  await page.goto(address);
  await page.getByRole("toolbar", { name: "Stencils" }).waitFor();
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
  const buffer = readFileSync("test/scenarios/design/gallons.json");
  await chooser.setFiles({ name: "gallons.json", mimeType: "application/json", buffer });
  await page.waitForTimeout(1500);
  const before = await picture(page);
  const gaps = await page.evaluateHandle(() => {
    const seen: number[] = [];
    let last = performance.now();
    const frame = (now: number) => {
      seen.push(now - last);
      last = now;
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
    return seen;
  });
  // In the tank's stones, where the sheet fits into this window.
  const [x, y] = [1080, 320] as const;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await gaps.evaluate((seen) => {
    seen.length = 0;
  });
  for (let k = 0; k < 120; k++) await page.mouse.move(x + 60 * Math.sin(k / 10), y - 20 * Math.sin(k / 7));
  const took = (await gaps.jsonValue()).sort((a, b) => a - b);
  const moved = (await picture(page)) !== before;
  await page.mouse.up();
  const at = (share: number) => (took[Math.floor(share * (took.length - 1))] ?? Number.NaN).toFixed(1).padStart(8);
  console.log(
    `${"frames while a vessel is dragged".padEnd(46)} median ${at(0.5)} ms   95 % ${at(0.95)} ms   ${took.length} frames`,
  );
  if (!moved) throw new Error("the drag moved nothing: its frames say nothing");
}

const picture = async (page: Page): Promise<string> => (await page.screenshot()).toString("base64");
