/** The built editor in a real browser, as a person meets it. */
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { inject } from "vitest";

let connected: Promise<Browser> | undefined;

/** A page, and every word it complained about: console errors, uncaught errors, requests that failed. */
export interface App {
  readonly page: Page;
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

/** Opens the editor in a window of its own, with an empty store. Close it in the same test. */
export async function openApp(options: BrowserContextOptions = {}, address = inject("address")): Promise<App> {
  const trouble = inject("trouble");
  if (trouble) throw new Error(trouble);
  connected ??= chromium.connect(inject("browser"));
  const browser = await connected;
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    // Arrows that move keep two processors busy with nothing but themselves; a test of motion asks for it.
    reducedMotion: "reduce",
    // Each window would fetch the whole program once more; the test of work without a network allows it.
    serviceWorkers: "block",
    ...options,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("requestfailed", (request) => complaints.push(`${request.url()}: ${request.failure()?.errorText}`));
  // The system's own file windows can not be driven; without them the page falls back on a file field and a download.
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, "showOpenFilePicker");
    Reflect.deleteProperty(window, "showSaveFilePicker");
  });
  // The browser hands file windows over to us only while somebody listens, and the first listener takes a moment to
  // reach it: a window that opens in that moment is lost. So one listens from before the page is there to its end.
  page.on("filechooser", () => {});
  await page.goto(address);
  return { page, complaints, close: () => context.close() };
}

/** A drawing to hand to the page: a path, or a name with its text. */
export type Drawing = string | { readonly name: string; readonly text: string };

/** Opens a drawing through the page's own Open (Ctrl O) and its file field. */
export async function openDrawing(page: Page, drawing: Drawing): Promise<void> {
  const file =
    typeof drawing === "string"
      ? { name: basename(drawing), buffer: await readFile(drawing) }
      : { name: drawing.name, buffer: Buffer.from(drawing.text) };
  // Keys are heard once the sheet is there.
  await page.getByRole("toolbar", { name: "Stencils" }).waitFor();
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
  const mimeType = file.name.endsWith(".svg") ? "image/svg+xml" : "application/json";
  await chooser.setFiles({ ...file, mimeType });
}
