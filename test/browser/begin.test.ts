/** A new drawing from five answers, by mouse and by keyboard. */
import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import { drawn, partOf, saved, savedText, told, word } from "./sheet.ts";

const comes = "#sheet-slip .comes";

test("by keyboard: what comes out is said while it is typed, then drawn as a drawing of its own", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  const before = await savedText(page);
  await page.keyboard.press("n");
  await expect.poll(() => page.locator(comes).textContent()).toMatch(/Holds its water, by geometry/);

  await page.getByLabel("Water in the pond").fill("2500 gal");
  await page.getByLabel("Water in the pond").press("Tab");
  await page.getByLabel("From edge to vessel").fill("8 ft");
  await page.getByLabel("From edge to vessel").press("Tab");
  await page.getByLabel("Its base over the ground").fill("30 cm");
  await page.getByLabel("Its base over the ground").press("Enter");
  await expect.poll(() => page.locator(comes).textContent()).toMatch(/^A pond of .* Holds its water, by geometry/);
  await word(page, "Draw it").focus();
  await page.keyboard.press("Enter");

  await told(page, /^Holds its water, by geometry; delivers [\d,]+ L\/h; \d+ to look at$/);
  const drawing = await saved(page);
  const pond = partOf(drawing, "pond");
  const vessel = partOf(drawing, "vessel");
  // 2500 US gallons are 9.46 m³; 8 ft are 2.438 m.
  expect(pond.width * pond.length * (pond.waterLevel - pond.bedLevel)).toBeCloseTo(9.46, 0);
  expect(vessel.x - pond.width).toBeCloseTo(2.438, 2);
  expect(vessel.baseLevel).toBeCloseTo(0.3, 6);
  expect(await word(page, "Undo").isDisabled()).toBe(true);

  await page.getByRole("button", { name: /^Back to/ }).click();
  expect(await savedText(page)).toBe(before);
  expect(complaints).toEqual([]);
  await close();
});

test("nonsense keeps the old answer; what can not be built is refused with what to change", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  await word(page, "New").click();
  const lift = page.getByLabel("Greatest lift on its box");
  const stood = await lift.inputValue();
  await lift.fill("a good deal");
  await lift.press("Enter");
  expect(await page.locator("#sheet-slip .trouble").textContent()).toMatch(/understood are/);
  expect(await lift.inputValue()).toBe(stood);

  await lift.fill("0.6 m");
  await lift.press("Enter");
  await expect.poll(() => page.locator(comes).textContent()).toMatch(/the pump lifts 0\.60 m at most/);
  expect(await word(page, "Draw it").isDisabled()).toBe(true);

  await lift.fill("900 m");
  await lift.press("Enter");
  expect(await page.locator("#sheet-slip .trouble").textContent()).toMatch(/lifts 0\.5 to 30 m/);
  expect(complaints).toEqual([]);
  await close();
});

test("in US units it suggests and draws inch pipe", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await word(page, "Metric").click();
  await word(page, "New").click();
  await expect.poll(() => page.locator(comes).textContent()).toMatch(/PVC Schedule 40.*Delivers [\d,]+ gph/);
  expect(await page.getByLabel("Water in the pond").inputValue()).toMatch(/^\d+ gal$/);
  // One press, straight out of a field that has not been left.
  await page.getByLabel("From edge to vessel").fill("10 ft");
  await word(page, "Draw it").click();

  await told(page, /Holds its water, by geometry/);
  expect(partOf(await saved(page), "vessel").x - partOf(await saved(page), "pond").width).toBeCloseTo(3.048, 2);
  expect(partOf(await saved(page), "pipe").nominal).toMatch(/^PVC Schedule 40, /);
  // In metres it would still be a pond of so many gallons.
  expect((await saved(page)).title).toBe("Pond and gravel filter");
  await close();
});
