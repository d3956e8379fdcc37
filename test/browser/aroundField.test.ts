/** A field and what goes on round it: a step back by key while it has the cursor, a press elsewhere. */
import { expect, test } from "vitest";
import { partStops, saved, tabOnto } from "./sheet.ts";
import { openYard, partById } from "./yard.ts";

test("a step back right after a field or a choice is the drawing's; in the middle of typing it is the field's", async () => {
  const { app } = await openYard();
  const { page, complaints, close } = app;
  const before = await saved(page);
  await tabOnto(page, partStops(page, /^Trough/));
  const rim = page.locator("#slip").getByLabel("Rim level");
  const shown = await rim.inputValue();

  await rim.fill("0.95");
  await rim.press("Enter");
  expect(partById(await saved(page), "trough").rimLevel).toBe(0.95);
  await rim.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => rim.inputValue()).toBe(shown);
  expect(await saved(page)).toEqual(before);
  await page.keyboard.press("Control+y");
  expect(partById(await saved(page), "trough").rimLevel).toBe(0.95);
  await page.keyboard.press("Control+z");

  await rim.focus();
  await page.keyboard.press("End");
  await page.keyboard.type("9");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Escape");
  expect(await saved(page)).toEqual(before);

  await page.keyboard.press("Escape");
  await tabOnto(page, partStops(page, /^Supply/));
  const material = page.locator("#slip").getByLabel("Material");
  await material.selectOption("copper");
  expect(partById(await saved(page), "supply").material).toBe("copper");
  await material.focus();
  await page.keyboard.press("Control+z");
  expect(await saved(page)).toEqual(before);
  expect(complaints).toEqual([]);
  await close();
});

test("why what was typed is not kept is said, also where a press elsewhere takes the slip away", async () => {
  const { app, at } = await openYard();
  const { page, complaints, close } = app;
  const before = await saved(page);
  const rim = page.locator("#slip").getByLabel("Rim level");
  for (const press of [() => page.mouse.click(...at(1.5, -0.4)), () => page.mouse.click(...at(2, 1.6))]) {
    await tabOnto(page, partStops(page, /^Trough/));
    await rim.fill("nonsense");

    await press();

    const said = page.getByText(/^Rim level: .*nonsense/);
    await said.waitFor();
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
  }
  expect(await saved(page)).toEqual(before);
  expect(complaints).toEqual([]);
  await close();
});
