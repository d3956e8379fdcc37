import { text } from "node:stream/consumers";
import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import {
  dragMouse,
  drawn,
  emptySheet,
  newSheet,
  openText,
  partOf,
  saved,
  savedText,
  setDown,
  told,
  word,
} from "./sheet.ts";

test("by mouse from an empty sheet: draw, read the flow, sink the tee and see the verdict turn, play the power cut", async () => {
  const { page, complaints, close } = await openApp({ reducedMotion: "no-preference" });
  await drawn(page);
  const at = await emptySheet(page);
  const pull = async (from: readonly [number, number], to: readonly [number, number]) => {
    await word(page, "Pipe").click();
    await dragMouse(page, from, to);
  };

  await setDown(page, "Pond", at(0.3, -0.3));
  await setDown(page, "Vessel", at(2.6, 0.3));
  const bodies = await saved(page);
  const pond = partOf(bodies, "pond");
  const vessel = partOf(bodies, "vessel");
  await setDown(page, "Pump", at(pond.x + 0.3, pond.bedLevel + 0.15));
  const pump = partOf(await saved(page), "pump");
  expect(pump.in).toBe(pond.id);

  await pull(at(pump.x, pump.z), at(vessel.x, vessel.baseLevel + 0.1));
  await pull(at(vessel.x, vessel.baseLevel + 0.62), at(pond.x + pond.width - 0.3, pond.rimLevel));
  const piped = await saved(page);
  const supply = partOf(piped, "pipe", 0);
  expect(supply).toMatchObject({ from: { part: pump.id }, to: { part: vessel.id, mouth: "side" } });
  expect(partOf(piped, "pipe", 1)).toMatchObject({ from: { part: vessel.id, mouth: "side" }, to: { part: pond.id } });

  // Without a breather the supply, which ends low in the vessel, siphons it empty.
  await told(page, /Drains/);
  const [crest] = supply.route as [[number, number]];
  await setDown(page, "Breather", at((crest[0] + vessel.x) / 2, crest[1]));
  const vent = partOf(await saved(page), "vent");
  expect(vent.on.pipe).toBe(supply.id);
  const holding = await told(page, /Holds its water, by geometry/);
  expect(holding).toMatch(/delivers [\d,]+ L\/h/);

  // The falling leg at the vessel: its breather slides down until the tee is under the water level.
  const [top, low] = (supply.route as [number, number][]).slice(-2) as [[number, number], [number, number]];
  await page.keyboard.press("Escape");
  await dragMouse(page, at((crest[0] + vessel.x) / 2, crest[1]), at(top[0], low[1] + 0.15), 25);
  await told(page, /Drains/);
  await page.keyboard.press("Control+z");
  await told(page, /Holds its water, by geometry/);

  const slider = page.getByRole("slider", { name: "Time after the power failed" });
  await word(page, "Event on").click();
  await expect.poll(() => slider.getAttribute("aria-valuetext")).toMatch(/after the power failed/);
  await word(page, "Play").click();
  const early = Number(await slider.getAttribute("aria-valuenow"));
  await page.waitForTimeout(900);
  await word(page, "Pause").click();
  expect(Number(await slider.getAttribute("aria-valuenow"))).toBeGreaterThan(early);
  await slider.press("End");
  await expect.poll(() => slider.getAttribute("aria-valuenow")).toBe(await slider.getAttribute("aria-valuemax"));

  // The sheet as SVG holds the drawing: opened again it is the same document.
  const written = await savedText(page);
  await word(page, "Hand out").click();
  const [download] = await Promise.all([page.waitForEvent("download"), word(page, "Save SVG").click()]);
  const svg = await text(await download.createReadStream());
  expect(download.suggestedFilename()).toMatch(/\.svg$/);
  expect(svg).toContain("Holds its water, by geometry");
  await newSheet(page);
  await openText(page, "sheet.svg", svg);
  await page.waitForFunction(() => document.querySelectorAll(".part-list li").length === 6);
  expect(await savedText(page)).toBe(written);
  expect(complaints).toEqual([]);
  await close();
}, 60_000);
