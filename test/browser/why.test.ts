/** Knowing why, as a person does it: plots with their tables, a sweep that is stopped, prices, two states, sizing. */
import { text } from "node:stream/consumers";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import { allElements, parseXml } from "../support/xml.ts";
import { axeFinds } from "./axe.ts";
import { drawn, partOf, partStops, placesOn, saved, tabOnto, told, word } from "./sheet.ts";

/** A part's slip, by its place in the list of parts. */
async function choose(page: Page, name: RegExp): Promise<void> {
  await tabOnto(page, partStops(page, name).first());
  await page.locator("#slip").waitFor();
}

const type = async (page: Page, label: string | RegExp, what: string): Promise<void> => {
  const field = page.getByLabel(label, { exact: true }).first();
  await field.fill(what);
  await field.press("Enter");
};

async function savedSvg(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent("download"), word(page, "Save SVG").click()]);
  return await text(await download.createReadStream());
}

/** What a sheet says, as it stands in the file. */
const wordsOf = (svg: string): string =>
  allElements(parseXml(svg))
    .filter(({ name }) => name === "text")
    .map(({ text: words }) => words)
    .join(" ");

test("a pump's slip plots it against its system, and the plot stays while a vessel is pulled about", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  // Before the slip is open: finding places leaves slips.
  const at = await placesOn(page);
  const vessel = partOf(await saved(page), "vessel");
  await choose(page, /Pump/);
  const plot = page.locator("#slip").getByRole("img", { name: /they meet at [\d,]+ L\/h/ });
  await plot.locator("canvas").waitFor();
  await page.locator("#slip").getByText("These curves as a table").click();
  const here = page.locator("#slip tr.chosen");
  expect(await here.textContent()).toContain("works here");
  // Lifted and needed are one there.
  const [lifts, needs] = await here.locator("td").allTextContents();
  expect(lifts).toBe(needs);

  await word(page, "Keep this plot open while you pull the sheet about").click();
  const duty = page.locator("#sheet-slip").getByRole("img", { name: /they meet at/ });
  const before = await duty.getAttribute("aria-label");
  const [x, y] = at(vessel.x + 0.35, vessel.baseLevel + 0.3);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 60, { steps: 6 });
  await expect.poll(() => duty.getAttribute("aria-label")).not.toBe(before);
  await page.mouse.up();
  expect(complaints).toEqual([]);
  await close();
}, 60_000);

test("a sweep shows its rows, its gaps with their reason, and can be stopped", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  await choose(page, /Bog filter/);
  await word(page, "What if").last().click();
  const slip = page.locator("#sheet-slip");
  await slip.getByLabel("What changes").selectOption({ label: "Rim level" });
  await type(page, "From", "-0.2 m");
  await type(page, "To", "0.9 m");
  await type(page, "In so many steps", "3");

  await expect.poll(() => slip.locator("tbody tr").count(), { timeout: 15_000 }).toBe(3);
  expect(await slip.locator("tr.gap-row").first().textContent()).toMatch(/No drawing: wanted is .*, found /);
  expect(await slip.locator("tbody tr").last().textContent()).toMatch(/L\/h.*m\/s.*held/);
  const refused = slip.locator("tr.gap-row td").first();
  expect(await refused.textContent()).toMatch(/found −0\.2\d* m\.$/);
  await word(page, "Metric").click();
  await expect.poll(() => refused.textContent()).toMatch(/found −0\.656\d* ft\.$/);
  await word(page, "US units").click();

  await type(page, "In so many steps", "200");
  // At once: a click that waits for the slip to stand still may come after the last row.
  await slip.getByRole("button", { name: "Stop" }).dispatchEvent("click");
  expect(await slip.textContent()).toMatch(/Stopped after \d+ of/);
  expect(complaints).toEqual([]);
  await close();
}, 60_000);

test("prices are typed with a comma, refused in another currency, kept, summed and handed out", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  await word(page, "Buy").click();
  const slip = page.locator("#sheet-slip");
  await type(page, /^Price of PVC-U pipe, 40 mm/, "$ 12");
  expect(await slip.getByRole("alert").textContent()).toMatch(/names no currency/);
  await type(page, /^Price of PVC-U pipe, 40 mm/, "12,50");
  await expect.poll(() => slip.locator("tfoot").textContent()).toMatch(/25\.00/);
  const [download] = await Promise.all([page.waitForEvent("download"), word(page, "Save as CSV").click()]);
  expect(await text(await download.createReadStream())).toMatch(/12\.5,25,/);

  await page.reload();
  await drawn(page);
  await word(page, "Buy").click();
  await expect.poll(() => slip.getByLabel(/^Price of PVC-U pipe, 40 mm/).inputValue()).toBe("12.5");

  await word(page, "Hand out").click();
  expect(wordsOf(await savedSvg(page))).toMatch(/at 12\.5 a length.*Total 25\.00/);
  await page.getByLabel("Your prices", { exact: true }).selectOption("left out");
  expect(wordsOf(await savedSvg(page))).not.toMatch(/at 12\.5|Total/);
  expect(complaints).toEqual([]);
  await close();
}, 60_000);

test("two states stand side by side, and the sizing walk puts a drawing on the sheet that undo takes back", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  const title = (await saved(page)).title;
  await choose(page, /Supply/);
  await type(page, "Bore", "50 mm");
  await word(page, "Steps").click();
  await word(page, "Compare one of these with the drawing as it is now").click();
  const slip = page.locator("#sheet-slip");
  await expect.poll(() => slip.getByRole("row", { name: /delivers/ }).textContent()).toMatch(/\+\d+ L\/h/);
  expect(await slip.getByRole("row", { name: /Supply Bore/ }).textContent()).toMatch(/50 mm/);

  await word(page, "Rules").click();
  expect(await slip.getByRole("row", { name: /Outlet larger than inlet/ }).textContent()).toMatch(/common practice/);
  await word(page, "Size a pond from the start").click();
  await word(page, "Put it on the sheet").click();
  await told(page, /delivers/);
  expect((await saved(page)).title).toMatch(/Sized/);
  await page.keyboard.press("Control+z");
  expect((await saved(page)).title).toBe(title);
  expect(complaints).toEqual([]);
  await close();
}, 60_000);

test.each(["light", "dark"] as const)(
  "axe finds nothing on the %s slips that say why",
  async (colorScheme) => {
    const { page, close } = await openApp({ colorScheme });
    await drawn(page);
    await told(page, /delivers/);
    for (const name of colorScheme === "light" ? ["What if", "Buy"] : ["Rules"]) {
      await word(page, name).click();
      await page.locator("#sheet-slip table").first().waitFor();
      expect(await axeFinds(page), name).toEqual([]);
    }
    if (colorScheme === "dark") {
      await word(page, "Size a pond from the start").click();
      await page.locator("#sheet-slip").getByRole("heading", { name: "Supply" }).waitFor();
      expect(await axeFinds(page), "sizing").toEqual([]);
    }
    await close();
  },
  60_000,
);
