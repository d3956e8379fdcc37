/** The sheet as a hand meets it: places in site metres become pixels by setting down two notes and reading
 * back where they are; documents are got by saving. Nothing in the page is called but what a person can press. */
import { text } from "node:stream/consumers";
import type { Locator, Page } from "playwright-core";

/** Waits until the sheet is there to be pressed. */
export async function drawn(page: Page): Promise<void> {
  page.setDefaultTimeout(8000);
  // The browser is told to hand file windows to the test when the first listener comes, and the telling takes a
  // moment: a window that opens in that moment is lost.
  page.on("filechooser", () => {});
  await page.getByRole("toolbar", { name: "Stencils" }).waitFor();
}

export interface SavedPart {
  readonly id: string;
  readonly kind: string;
  // biome-ignore lint/suspicious/noExplicitAny: parts of a file as they come, looked at by the tests
  readonly [field: string]: any;
}

export interface Saved {
  readonly title: string;
  readonly parts: readonly SavedPart[];
}

/** The text that Ctrl S hands out. */
export async function savedText(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
  return await text(await download.createReadStream());
}

export const saved = async (page: Page): Promise<Saved> => JSON.parse(await savedText(page)) as Saved;

export const partOf = (drawing: Saved, kind: string, n = 0): SavedPart => {
  const found = drawing.parts.filter((part) => part.kind === kind)[n];
  if (!found) throw new Error(`no ${kind} in ${JSON.stringify(drawing.parts.map((part) => part.id))}`);
  return found;
};

export const word = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

/** The stops that the keyboard makes, part by part. */
export const partStops = (page: Page, name: RegExp = /./): Locator =>
  page.getByRole("list", { name: "Parts on the sheet" }).getByRole("button", { name });

/** Comes to a part's stop by the Tab key, which chooses the part. */
export async function tabOnto(page: Page, stop: Locator): Promise<void> {
  await stop.focus();
  await page.keyboard.press("Shift+Tab");
  await page.keyboard.press("Tab");
}

/** A stencil is pressed and set down with a click. */
export async function setDown(page: Page, stencil: string, [x, y]: Px): Promise<void> {
  await word(page, stencil).click();
  await page.mouse.move(x - 3, y - 3);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.up();
}

/** Opens a drawing by the word on the sheet's edge. */
export async function openText(page: Page, name: string, drawing: string): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), word(page, "Open").click()]);
  await chooser.setFiles({
    name,
    mimeType: name.endsWith(".svg") ? "image/svg+xml" : "application/json",
    buffer: Buffer.from(drawing),
  });
}

export type Px = readonly [number, number];

export async function dragMouse(page: Page, from: Px, to: Px, steps = 12): Promise<void> {
  await page.mouse.move(from[0], from[1]);
  await page.mouse.down();
  await page.mouse.move(to[0], to[1], { steps });
  await page.mouse.up();
}

/** An empty sheet, and where a site place lies on it. */
export async function emptySheet(page: Page): Promise<(x: number, z: number) => Px> {
  await newSheet(page);
  return await placesOn(page);
}

/** Nothing in the hand, nothing chosen, no slip, and every step taken back. */
export async function takenBack(page: Page): Promise<void> {
  for (let k = 0; k < 4; k++) await page.keyboard.press("Escape");
  for (let k = 0; k < 30 && (await word(page, "Undo").isEnabled()); k++) await page.keyboard.press("Control+z");
  await page.keyboard.press("Escape");
  await page.keyboard.press("0");
}

export async function newSheet(page: Page): Promise<void> {
  await word(page, "New").click();
  await word(page, "An empty sheet").click();
}

export async function placesOn(page: Page): Promise<(x: number, z: number) => Px> {
  const a: Px = [600, 220];
  const b: Px = [950, 470];
  await page.keyboard.down("Alt");
  await setDown(page, "Note", a);
  await setDown(page, "Note", b);
  await page.keyboard.up("Alt");
  const notes = (await saved(page)).parts.filter((part) => part.kind === "note").slice(-2);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  const [first, second] = notes as [SavedPart, SavedPart];
  const scaleX = (b[0] - a[0]) / (second.x - first.x);
  const scaleZ = (b[1] - a[1]) / (first.z - second.z);
  if (Math.abs(scaleX - scaleZ) > 0.02 * scaleX)
    throw new Error(`heights are not true: ${scaleX} and ${scaleZ} px a metre`);
  return (x, z) => [a[0] + (x - first.x) * scaleX, a[1] + (first.z - z) * scaleZ];
}

/** What the sheet tells a screen reader: verdict, flow, things to look at. Waits until it matches. */
export async function told(page: Page, wanted: RegExp): Promise<string> {
  const status = page.getByRole("status");
  await page
    .waitForFunction(
      ([source]) => new RegExp(source as string).test(document.querySelector("[role=status]")?.textContent ?? ""),
      [wanted.source] as const,
      { timeout: 8000 },
    )
    .catch(async () => {
      throw new Error(`the sheet tells "${await status.textContent()}", not ${wanted}`);
    });
  return (await status.textContent()) ?? "";
}
