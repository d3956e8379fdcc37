import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";
import { dragMouse, drawn, partOf, placesOn, saved, told, word } from "./sheet.ts";

const widths = [
  [1440, 900],
  [1024, 768],
  [390, 844],
] as const;

test.each(widths)(
  "at %d by %d nothing hangs over the window, and every stencil and word can be reached",
  async (width, height) => {
    const { page, complaints, close } = await openApp({ viewport: { width, height } });
    await drawn(page);
    await told(page, /delivers/);
    if (width < 720) await word(page, "Sheet").click();

    for (const name of ["Pond", "Note", "New", "Hand out", "Keys"]) {
      const box = await word(page, name).boundingBox();
      expect(box, name).not.toBeNull();
      if (!box) continue;
      expect(box.x, name).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width, name).toBeLessThanOrEqual(width);
      expect(box.y + box.height, name).toBeLessThanOrEqual(height);
    }
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    expect(complaints).toEqual([]);
    await close();
  },
);

test("a resized window keeps the picture sharp and the hand on its part", async () => {
  const { page, close } = await openApp({ deviceScaleFactor: 2 });
  await drawn(page);
  await told(page, /delivers/);
  await page.setViewportSize({ width: 1200, height: 760 });

  const canvas = page.locator("canvas").first();
  await expect
    .poll(() =>
      canvas.evaluate((node: HTMLCanvasElement) => [node.width, node.clientWidth, node.height, node.clientHeight]),
    )
    .toEqual([2400, 1200, 1520, 760]);
  const at = await placesOn(page);
  const before = partOf(await saved(page), "vessel");
  await dragMouse(
    page,
    at(before.x + before.plan.width * 0.7, before.rimLevel - 0.02),
    at(before.x + before.plan.width * 0.7 + 0.3, before.rimLevel - 0.02),
  );
  expect(partOf(await saved(page), "vessel").x).toBeGreaterThan(before.x + 0.1);
  await close();
});

test("names of what the hand snaps to lie beside its tag, not under it", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await told(page, /delivers/);
  const at = await placesOn(page);
  const drawing = await saved(page);
  const vessel = partOf(drawing, "vessel");
  const pond = partOf(drawing, "pond");
  const [x, y] = at(vessel.x + vessel.plan.width * 0.06, vessel.rimLevel - 0.02);
  // Its left edge, near which it is held, to the pond's right one.
  const toEdge = at(pond.x + pond.width, 0)[0] - at(vessel.x, 0)[0];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + toEdge / 2, 250, { steps: 4 });
  const seen = new Set<string>();
  for (let down = 250; down <= 340; down += 5) {
    await page.mouse.move(x + toEdge, down);
    await page.evaluate(() => new Promise(requestAnimationFrame));
    const [tag, ...words] = await page.evaluate(() =>
      [".tag", ".guide > div:last-child"].flatMap((which) =>
        [...document.querySelectorAll<HTMLElement>(which)].map((node) => ({
          ...(node.getBoundingClientRect().toJSON() as DOMRect),
          text: node.textContent,
        })),
      ),
    );
    for (const word of words) {
      if (!tag) continue;
      seen.add(word.text);
      const under = word.left < tag.right && tag.left < word.right && word.top < tag.bottom && tag.top < word.bottom;
      expect(under, `pointer at ${down}`).toBe(false);
    }
  }
  expect([...seen]).toContain("edge of Pond");
  await page.mouse.up();
  await close();
});

test("night and day, metric and US change the sheet at once and the drawing not at all", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await told(page, /delivers [\d,]+ L\/h/);
  const paper = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const day = await paper();
  const before = await saved(page);

  await word(page, "Night").click();
  expect(await paper()).not.toBe(day);
  await word(page, "Metric").click();
  await told(page, /delivers [\d,.]+ gph/);

  expect(await saved(page)).toEqual(before);
  await close();
});

test("one finger drags a part, two fingers zoom the sheet", async () => {
  const { page, close } = await openApp({ hasTouch: true });
  await drawn(page);
  const at = await placesOn(page);
  const before = partOf(await saved(page), "pump");
  const client = await page.context().newCDPSession(page);
  const touch = (type: string, points: readonly (readonly [number, number])[]) =>
    client.send("Input.dispatchTouchEvent", {
      type: type as "touchStart",
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });

  const [x, y] = at(before.x, before.z);
  await touch("touchStart", [[x, y]]);
  for (let i = 1; i <= 8; i++) await touch("touchMove", [[x + i * 10, y]]);
  await touch("touchEnd", []);
  const moved = await saved(page);
  expect(partOf(moved, "pump").x).toBeGreaterThan(before.x + 0.1);

  await page.keyboard.press("Escape");
  await touch("touchStart", [
    [500, 400],
    [600, 400],
  ]);
  for (let i = 1; i <= 8; i++)
    await touch("touchMove", [
      [500 - i * 10, 400],
      [600 + i * 10, 400],
    ]);
  await touch("touchEnd", []);
  expect(await saved(page)).toEqual(moved);
  const zoomed = await placesOn(page);
  expect(zoomed(1, 0)[0] - zoomed(0, 0)[0]).toBeGreaterThan(1.3 * (at(1, 0)[0] - at(0, 0)[0]));
  await close();
});
