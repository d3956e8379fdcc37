import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import { axeFinds } from "./axe.ts";
import { drawn, openText, partOf, partStops, saved, tabOnto, told, word } from "./sheet.ts";

test.each(["light", "dark"] as const)(
  "axe finds nothing on the %s sheet, with each slip open",
  async (colorScheme) => {
    const { page, complaints, close } = await openApp({ colorScheme });
    await drawn(page);
    await told(page, /delivers/);
    expect(await axeFinds(page)).toEqual([]);

    for (const slip of ["New", "Drawings", "Parts", "Keys", "Steps"]) {
      await word(page, slip).click();
      expect(await axeFinds(page)).toEqual([]);
      await page.keyboard.press("Escape");
    }
    for (const title of [/to look at/, /^This drawing/]) {
      await page.getByRole("button", { name: title }).click();
      expect(await axeFinds(page)).toEqual([]);
      await page.keyboard.press("Escape");
    }
    const parts = partStops(page);
    for (let i = 0; i < (await parts.count()); i++) {
      await tabOnto(page, parts.nth(i));
      await page.locator("#slip").waitFor();
      expect(await axeFinds(page)).toEqual([]);
    }
    expect(complaints).toEqual([]);
    await close();
  },
  120_000,
);

test.each([
  ["light", 1440, 900],
  ["dark", 1440, 900],
  ["light", 390, 844],
  ["dark", 390, 844],
] as const)(
  "the sheets to hand out, %s and %d px wide, are reached by Tab and moved along by arrows",
  async (colorScheme, width, height) => {
    const { page, complaints, close } = await openApp({ colorScheme, viewport: { width, height } });
    await drawn(page);
    await told(page, /delivers/);
    const before = await saved(page);
    await page.keyboard.press("Control+a");
    if (width < 720) await word(page, "Sheet").click();
    await word(page, "Hand out").click();
    const row = page.getByRole("figure", { name: "The sheets as they will be printed" });
    await row.getByRole("img", { name: /^Sheet 2/ }).waitFor();
    expect(await axeFinds(page)).toEqual([]);

    await page.locator("#sheet-slip .paper").focus();
    await page.keyboard.press("Tab");
    expect(await row.evaluate((node) => node === document.activeElement && node.matches(":focus-visible"))).toBe(true);
    const end = await row.evaluate((node) => node.scrollWidth - node.clientWidth);
    expect(end).toBeGreaterThan(20);
    for (let k = 0; k < 40; k++) await page.keyboard.press("ArrowRight");
    await expect.poll(() => row.evaluate((node) => node.scrollLeft)).toBeGreaterThan(end - 2);
    // What was chosen stayed where it was.
    await page.keyboard.press("Escape");
    expect(await saved(page)).toEqual(before);
    expect(complaints).toEqual([]);
    await close();
  },
);

test("the parts table holds every part with its readings", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  await word(page, "Parts").click();

  const rows = page.locator("#sheet-slip tbody tr");
  expect(await rows.count()).toBe((await saved(page)).parts.length);
  expect(await page.getByRole("row", { name: /Supply/ }).textContent()).toMatch(/Flow [\d,]+ L\/h.*Velocity/);
  await close();
});

test("by keyboard alone: pond, vessel, pump, supply, breather and return become a layout that is safe, and are taken back", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  const press = async (name: string) => {
    await word(page, name).focus();
    await page.keyboard.press("Enter");
  };
  const type = async (label: string, text: string) => {
    const field = page.locator("#slip").getByLabel(label, { exact: true }).first();
    await field.focus();
    await page.keyboard.press("Control+a");
    await page.keyboard.type(text);
    await page.keyboard.press("Enter");
  };
  const choose = async (label: string, option: string) => {
    const field = page.locator("#slip").getByLabel(label, { exact: true });
    await field.focus();
    await field.selectOption({ label: option });
  };
  await press("New");
  await press("An empty sheet");
  await press("Pond");
  await press("Vessel");
  await press("Pump");
  await press("Pipe");
  await choose("Begins in", "Pump");
  await choose("Ends in", "Filter");
  await type("Level of bend 1", "1.3 m");
  await type("Level of bend 2", "1.3 m");
  await press("Breather");
  await press("Pipe");
  await choose("Begins in", "Filter");
  await type("Level", "0.6 m");
  await choose("Ends in", "Pond");

  const drawing = await saved(page);
  expect(partOf(drawing, "pump").in).toBe(partOf(drawing, "pond").id);
  const supply = partOf(drawing, "pipe", 0);
  expect(supply).toMatchObject({ label: "Supply", from: { part: "pump" }, to: { part: "vessel" } });
  expect(supply.route.slice(0, 2).map(([, z]: readonly number[]) => z)).toEqual([1.3, 1.3]);
  expect(partOf(drawing, "vent").on.pipe).toBe(supply.id);
  expect(partOf(drawing, "pipe", 1)).toMatchObject({ from: { part: "vessel", z: 0.6 }, to: { part: "pond" } });
  await told(page, /Holds its water, by geometry; delivers [\d,]+ L\/h/);

  // A bend more and one less, the focus at hand all the while.
  await page.locator("#slip").getByRole("button", { name: "Add a bend" }).focus();
  await page.keyboard.press("Enter");
  const bends = page.locator("#slip").getByRole("button", { name: /^Take out bend/ });
  await expect.poll(() => bends.count()).toBe(2);
  await bends.nth(1).focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => bends.count()).toBe(1);
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute("aria-label")))
    .toBe("Take out bend 1");
  await page.locator("#slip").getByRole("button", { name: "Remove", exact: true }).focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => page.evaluate(() => document.activeElement?.closest(".part-list") !== null)).toBe(true);
  await page.keyboard.press("Control+z");

  const stops = partStops(page);
  await stops.first().focus();
  await page.keyboard.press("Tab");
  const x = partOf(await saved(page), "vessel").x;
  await page.keyboard.press("ArrowRight");
  expect(partOf(await saved(page), "vessel").x).toBeCloseTo(x + 0.01, 6);
  for (let i = 0; i < 40 && (await word(page, "Undo").isEnabled()); i++) await page.keyboard.press("Control+z");
  expect((await saved(page)).parts).toEqual([]);
  expect(complaints).toEqual([]);
  await close();
}, 60_000);

const threeTubs = JSON.stringify({
  format: "holdwater-section",
  version: 1,
  title: "Three tubs",
  site: {},
  parts: ["Left", "Middle", "Right"].map((label, i) => ({
    ...{ id: `tub-${i}`, kind: "vessel", label, x: 2 * i, baseLevel: 0.1 * i, rimLevel: 0.5 + 0.1 * i },
    plan: { shape: "rectangle", width: 1, length: 1 },
  })),
});

test("by keyboard alone two of three tubs are chosen, and aligned; the third stays", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await openText(page, "tubs.json", threeTubs);
  await page.getByRole("heading", { name: /^Three tubs/ }).waitFor({ state: "attached" });
  const tops = async () => (await saved(page)).parts.map(({ rimLevel }) => rimLevel);
  const pressed = () =>
    partStops(page).evaluateAll((stops) => stops.map((stop) => stop.getAttribute("aria-pressed") === "true"));
  expect(await tops()).toEqual([0.5, 0.6, 0.7]);

  await tabOnto(page, partStops(page, /^Left/));
  expect(await pressed()).toEqual([true, false, false]);
  await page.keyboard.press("Shift+Space");
  await page.getByText("Left stays chosen").waitFor({ state: "attached" });
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  expect(await pressed()).toEqual([true, false, false]);
  await page.keyboard.press("Shift+Space");
  expect(await pressed()).toEqual([true, false, true]);
  await page.getByText("2 parts are chosen.").waitFor({ state: "attached" });
  expect(await axeFinds(page)).toEqual([]);

  await page.keyboard.press("Enter");
  const align = page.locator("#slip").getByRole("button", { name: "Align tops" });
  for (let k = 0; k < 40 && !(await align.evaluate((node) => node === document.activeElement)); k++)
    await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  const [left, middle, right] = await tops();
  expect(middle).toBe(0.6);
  expect(left).toBe(right);

  // Escape ends it: one part at a time again.
  await page.keyboard.press("Escape");
  await tabOnto(page, partStops(page, /^Middle/));
  expect(await pressed()).toEqual([false, true, false]);
  await page.keyboard.press("Shift+Tab");
  expect(await pressed()).toEqual([true, false, false]);
  expect(complaints).toEqual([]);
  await close();
});

test("zoomed in, each part that Tab comes to is brought into sight, and page keys move the sheet, but no slip's paper", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  for (let k = 0; k < 5; k++) await page.keyboard.press("+");
  const stops = partStops(page);
  const leaderEnd = async (): Promise<readonly [number, number] | null> => {
    const circle = page.locator(".leader circle");
    if ((await circle.count()) === 0) return null;
    return [Number(await circle.getAttribute("cx")), Number(await circle.getAttribute("cy"))];
  };
  await tabOnto(page, stops.first());
  const strip = (await page.getByRole("slider").boundingBox())?.y ?? 0;
  for (let k = 0; k < (await stops.count()); k++) {
    const end = await leaderEnd();
    expect(end, `part ${k}`).not.toBeNull();
    if (!end) continue;
    expect(end[0]).toBeGreaterThan(60);
    expect(end[0]).toBeLessThan(1420);
    expect(end[1]).toBeGreaterThan(80);
    expect(end[1]).toBeLessThan(strip);
    await page.keyboard.press("Tab");
  }

  const pump = partStops(page, /^Pump/);
  await tabOnto(page, pump);
  const at = async () => (await leaderEnd()) ?? [0, 0];
  const [x, y] = await at();
  await page.keyboard.press("PageDown");
  const [, higher] = await at();
  expect(higher).toBeGreaterThan(0);
  expect(higher).toBeLessThan(y - 40);
  await page.keyboard.press("PageUp");
  await page.keyboard.press("Shift+PageUp");
  const [further, same] = await at();
  expect(same).toBeCloseTo(y, 3);
  expect(further).toBeGreaterThan(x + 100);
  await page.keyboard.press("Shift+PageDown");
  // Its part out of sight, the slip's leader is left out.
  for (let k = 0; k < 8; k++) await page.keyboard.press("PageUp");
  await page.locator("#slip").waitFor();
  expect(await leaderEnd()).toBeNull();
  await tabOnto(page, pump);
  const seen = await at();
  await page.keyboard.press("Enter");
  await page.keyboard.press("PageDown");
  expect(await at()).toEqual(seen);
  expect(complaints).toEqual([]);
  await close();
});
