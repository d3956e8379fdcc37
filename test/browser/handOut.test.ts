/** What leaves the sheet, and what comes back: SVG, print, picture, link, samples, and the program without a network. */
import { readFileSync } from "node:fs";
import { createServer, request, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { text } from "node:stream/consumers";
import pixelmatch from "pixelmatch";
import type { Page } from "playwright-core";
import { PNG } from "pngjs";
import { expect, inject, test } from "vitest";
import { lessons } from "../../samples/lessons.ts";
import { openApp, openDrawing } from "../support/app.ts";
import { drawn, openText, saved, savedText, told, word } from "./sheet.ts";

const sampleTitle = (file: string): string => JSON.parse(readFileSync(`samples/${file}`, "utf8")).title;
const titleOf = async (page: Page): Promise<string> => (await saved(page)).title;

async function openSample(page: Page, n: number): Promise<void> {
  await word(page, "Samples").click();
  await page.locator(".gallery li").nth(n).locator("button").click();
  await page.locator("#sheet-slip").waitFor({ state: "detached" });
}

async function savedSvg(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent("download"), word(page, "Save SVG").click()]);
  expect(download.suggestedFilename()).toMatch(/^[a-z0-9-]+\.svg$/);
  return await text(await download.createReadStream());
}

// --- the same picture on canvas and in the file --------------------------------------------------------------------

/** Averages of squares of pixels: letters set half a pixel elsewhere are the same letters. */
function coarse(picture: PNG, by: number): PNG {
  const small = new PNG({ width: Math.floor(picture.width / by), height: Math.floor(picture.height / by) });
  for (let y = 0; y < small.height; y++)
    for (let x = 0; x < small.width; x++)
      for (let channel = 0; channel < 4; channel++) {
        let sum = 0;
        for (let dy = 0; dy < by; dy++)
          for (let dx = 0; dx < by; dx++)
            sum += picture.data[((y * by + dy) * picture.width + x * by + dx) * 4 + channel] as number;
        small.data[(y * small.width + x) * 4 + channel] = Math.round(sum / by ** 2);
      }
  return small;
}

function shareThatDiffers(a: PNG, b: PNG): number {
  expect([a.width, a.height]).toEqual([b.width, b.height]);
  const [first, second] = [coarse(a, 2), coarse(b, 2)];
  const { width, height } = first;
  return pixelmatch(first.data, second.data, undefined, width, height, { threshold: 0.2 }) / (width * height);
}

test("the SVG of every sample, drawn by the browser, is the picture that the editor paints", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  const viewer = await page.context().newPage();
  // The same page, for its letters alone.
  await viewer.goto(inject("address"));
  for (const { file } of lessons) {
    await openDrawing(page, `samples/${file}`);
    await expect.poll(() => page.locator("h1").textContent()).toContain(sampleTitle(file));
    await word(page, "Hand out").click();
    const canvas = page.locator(".hand-out canvas").first();
    await canvas.waitFor();
    const svg = await savedSvg(page);
    const url = await canvas.evaluate((node: HTMLCanvasElement) => node.toDataURL("image/png"));
    const painted = PNG.sync.read(Buffer.from(url.slice(url.indexOf(",") + 1), "base64"));
    await viewer.setViewportSize({ width: painted.width, height: painted.height });
    await viewer.evaluate(
      ([source, width, height]) => {
        const root = new DOMParser().parseFromString(source, "image/svg+xml").documentElement;
        const box = root.getAttribute("viewBox")?.split(" ").map(Number) ?? [];
        // Further sheets stand under the first.
        root.setAttribute("viewBox", `0 0 ${box[2]} ${((box[2] as number) * height) / width}`);
        root.setAttribute("width", String(width));
        root.setAttribute("height", String(height));
        document.body.replaceChildren(document.importNode(root, true));
      },
      [svg, painted.width, painted.height] as const,
    );
    const shown = PNG.sync.read(await viewer.screenshot());

    expect(shareThatDiffers(painted, shown), file).toBeLessThan(0.002);
  }
  expect(complaints).toEqual([]);
  await close();
}, 90_000);

// --- samples --------------------------------------------------------------------------------------------------------

test("a sample opens with what to look at, and the drawing before comes back with one press", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await openText(
    page,
    "mine.json",
    JSON.stringify({
      format: "holdwater-section",
      version: 1,
      title: "Mine",
      site: {},
      parts: [{ id: "n", kind: "note", x: 0, z: 0, text: "mine" }],
    }),
  );
  await page.getByRole("heading", { name: /^Mine/ }).waitFor({ state: "attached" });
  const mine = await savedText(page);

  await word(page, "Samples").click();
  await expect.poll(() => page.locator('.gallery canvas[data-drawn="true"]').count()).toBe(lessons.length);
  for (const { lesson } of lessons) expect(await page.locator(".gallery").textContent()).toContain(lesson);
  await page.getByRole("button", { name: /^Over the wall without a breather/ }).click();

  await told(page, /Drains/);
  expect(await page.getByRole("alert").textContent()).toContain("Play the power cut");
  await word(page, "Back to Mine").click();
  await page.getByRole("heading", { name: /^Mine/ }).waitFor({ state: "attached" });
  expect(await savedText(page)).toBe(mine);
  expect(complaints).toEqual([]);
  await close();
});

// --- print ----------------------------------------------------------------------------------------------------------

/** Sizes of a PDF's pages in points of 1/72 in, as ISO 32000-1 has them in each page's MediaBox. */
const pagesOf = (pdf: Buffer): readonly (readonly number[])[] =>
  [...pdf.toString("latin1").matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map(([, w, h]) => [
    Math.round(Number(w)),
    Math.round(Number(h)),
  ]);

test("the browser prints one sheet to a page, in the size of its paper, black on white and with the cautions", async () => {
  const { page, close } = await openApp({ colorScheme: "dark" });
  await drawn(page);
  await told(page, /delivers/);
  const print = async () => pagesOf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));

  // A4 is 841.9 by 595.3 points; on the second sheet stands what to buy.
  expect(await print()).toEqual([
    [842, 595],
    [842, 595],
  ]);
  await word(page, "Hand out").click();
  await page.getByLabel("Shows", { exact: true }).selectOption("sequence");
  expect(await print()).toEqual([[595, 842]]);
  await page.getByLabel("Shows", { exact: true }).selectOption("sheet");
  await page.getByLabel("Paper", { exact: true }).selectOption("Letter");
  expect((await print())[0]).toEqual([792, 612]);
  await openText(page, "many.json", manyPonds(40));
  const pages = await print();
  expect(pages.length).toBeGreaterThan(1);
  expect(new Set(pages.map(String))).toEqual(new Set(["792,612"]));

  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const printed = page.locator(".printed");
  expect(await printed.locator(".printed-sheet").count()).toBe(pages.length);
  expect(await printed.textContent()).toMatch(/residual-current protection.*small children.*air gap/s);
  expect(await page.locator("main").isVisible()).toBe(false);
  expect(await printed.locator("rect").first().getAttribute("fill")).toBe("#FFFFFF");
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  expect(await page.locator(".printed").count()).toBe(0);
  await close();
});

const manyPonds = (count: number): string =>
  JSON.stringify({
    format: "holdwater-section",
    version: 1,
    title: "Many ponds",
    site: {},
    parts: Array.from({ length: count }, (_, i) => ({
      ...{ id: `pond-${i}`, kind: "pond", label: `Pond ${i}`, x: 3 * i, width: 2, length: 2 },
      ...{ bedLevel: -1, rimLevel: 0.1, waterLevel: 0 },
    })),
  });

// --- link and picture ------------------------------------------------------------------------------------------------

test("a link opens the whole drawing elsewhere; half of it is refused, and nothing is lost", async () => {
  const { page, complaints, close } = await openApp({ permissions: ["clipboard-read", "clipboard-write"] });
  await drawn(page);
  await openSample(page, 3);
  const written = await savedText(page);
  await word(page, "Hand out").click();
  let link = "";
  // The clipboard is the browser's, and another file's test that runs at the same time may copy over it.
  for (let k = 0; k < 5 && !link.startsWith("http"); k++) {
    await word(page, "Copy link").click();
    await page.getByText("The link can be pasted now").waitFor();
    link = await page.evaluate(() => navigator.clipboard.readText());
  }

  const other = await page.context().newPage();
  // As `openApp` does for its own page.
  await other.addInitScript(() => {
    Reflect.deleteProperty(window, "showOpenFilePicker");
    Reflect.deleteProperty(window, "showSaveFilePicker");
  });
  await other.goto(link);
  await drawn(other);
  expect(await savedText(other)).toBe(written);
  expect(new URL(other.url()).hash).toBe("");

  // Pasted into a page that has a drawing open.
  await other.goto(link.slice(0, link.length - 200));
  await other
    .getByRole("alert")
    .getByText(/The link is cut off.*as it was/)
    .waitFor();
  expect(await savedText(other)).toBe(written);
  expect(complaints).toEqual([]);
  await close();
});

test("the picture goes on to the clipboard; where the browser refuses, that is said", async () => {
  const { page, close } = await openApp({ permissions: ["clipboard-read", "clipboard-write"] });
  await drawn(page);
  await word(page, "Hand out").click();
  // The clipboard is the browser's, and another file's test that runs at the same time may copy over it.
  let url = "";
  for (let k = 0; k < 5 && url === ""; k++) {
    await word(page, "Copy picture").click();
    await page.getByText("The picture can be pasted now").waitFor();
    url = await page.evaluate(async () => {
      const [item] = await navigator.clipboard.read();
      if (!item?.types.includes("image/png")) return "";
      const blob = await item.getType("image/png");
      return await new Promise<string>((resolve) => {
        const reader = new FileReader();
        reader.onload = () => resolve(String(reader.result));
        reader.readAsDataURL(blob);
      });
    });
  }
  const { width, height } = PNG.sync.read(Buffer.from(url.slice(url.indexOf(",") + 1), "base64"));
  // A4 at 150 dots an inch.
  expect([width, height]).toEqual([1754, 1240]);

  await page.evaluate(() => {
    navigator.clipboard.write = () => Promise.reject(new Error("not allowed here"));
  });
  await word(page, "Copy picture").click();
  await page
    .getByRole("alert")
    .getByText(/no picture on to the clipboard.*not allowed here/)
    .waitFor();
  await close();
});

// --- without a network ------------------------------------------------------------------------------------------------

/** The tested page at an address of its own, that can be closed. */
async function closable(): Promise<{ readonly address: string; readonly server: Server }> {
  const { hostname, port } = new URL(inject("address"));
  const server = createServer((asked, answer) => {
    const passed = request(
      {
        hostname,
        port,
        path: asked.url,
        method: asked.method,
        headers: { ...asked.headers, host: `localhost:${port}` },
      },
      (got) => {
        answer.writeHead(got.statusCode ?? 500, got.headers);
        got.pipe(answer);
      },
    );
    passed.on("error", () => answer.destroy());
    asked.pipe(passed);
  });
  await new Promise<void>((resolve) => server.listen(0, "localhost", resolve));
  return { address: `http://localhost:${(server.address() as AddressInfo).port}/`, server };
}

test("once kept, the program starts, solves and opens its samples with the server gone, and keeps the drawing", async () => {
  const { address, server } = await closable();
  const { page, close } = await openApp({ serviceWorkers: "allow" });
  await page.goto(address);
  await drawn(page);
  const states = () =>
    page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state ?? "none");
  await expect.poll(states, { timeout: 20_000 }).toBe("activated");
  await openSample(page, 1);
  await told(page, /Drains/);
  await page.waitForTimeout(300);
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
  await expect(fetch(address)).rejects.toThrow();

  await page.reload();
  await drawn(page);
  await told(page, /Drains/);
  expect(await titleOf(page)).toBe("Over the wall without a breather");
  await openSample(page, 0);
  await told(page, /by geometry/);
  const fresh = await page.context().newPage();
  await fresh.goto(`${address}?from=elsewhere`);
  await drawn(fresh);
  await close();
}, 60_000);
