import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { App } from "../support/app.ts";
import {
  dragMouse,
  type Px,
  partOf,
  partStops,
  type Saved,
  saved,
  savedText,
  setDown,
  takenBack,
  word,
} from "./sheet.ts";
import { openYard, partById as part } from "./yard.ts";

let app: App;
let at: (x: number, z: number) => Px;
let start: Saved;

beforeAll(async () => {
  ({ app, at } = await openYard());
  start = await saved(app.page);
});

// One window for all: each test leaves the drawing as it was.
afterEach(async () => {
  await takenBack(app.page);
  expect(await saved(app.page)).toEqual(start);
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

test("a dragged vessel takes its openings along, in one step", async () => {
  await dragMouse(app.page, at(4.6, 0.5), at(5.1, 0.5));

  const moved = await saved(app.page);
  expect(part(moved, "trough").x).toBeGreaterThan(4.3);
  expect(part(moved, "supply").to.part).toBe("trough");
  await app.page.keyboard.press("Control+z");
  expect(await saved(app.page)).toEqual(start);
  await app.page.keyboard.press("Control+y");
  expect(await saved(app.page)).toEqual(moved);
});

test("Escape in the middle of a drag leaves no trace", async () => {
  const [x, y] = at(4.6, 0.5);
  await app.page.mouse.move(x, y);
  await app.page.mouse.down();
  await app.page.mouse.move(x + 120, y + 40, { steps: 6 });
  await app.page.keyboard.press("Escape");
  await app.page.mouse.move(x + 160, y + 40, { steps: 3 });
  await app.page.mouse.up();

  expect(await saved(app.page)).toEqual(start);
  expect(await word(app.page, "Undo").isDisabled()).toBe(true);
});

test("undo in the middle of a drag leaves the drag and nothing else", async () => {
  await dragMouse(app.page, at(0.5, -0.5), at(0.8, -0.5));
  const first = await saved(app.page);
  const [x, y] = at(4.6, 0.5);
  await app.page.mouse.move(x, y);
  await app.page.mouse.down();
  await app.page.mouse.move(x + 120, y, { steps: 6 });
  await app.page.keyboard.press("Control+z");
  await app.page.mouse.move(x + 160, y, { steps: 3 });
  await app.page.mouse.up();

  expect(await saved(app.page)).toEqual(first);
});

test("the wheel in the middle of a drag moves the sheet, and what is held stays under the hand", async () => {
  const [x, y] = at(4.9, 0.55);
  const scale = at(5.9, 0.55)[0] - x;
  await app.page.keyboard.down("Alt");
  await app.page.mouse.move(x, y);
  await app.page.mouse.down();
  await app.page.mouse.move(x + 60, y, { steps: 4 });
  await app.page.mouse.wheel(90, 0);
  await app.page.mouse.move(x + 61, y, { steps: 2 });
  await app.page.mouse.up();
  await app.page.keyboard.up("Alt");

  const moved = part(await saved(app.page), "trough").x - part(start, "trough").x;
  expect(Math.abs(moved * scale - (61 + 90))).toBeLessThan(2);
});

test("a button that is let go over another window leaves the drag without a trace", async () => {
  const [x, y] = at(4.9, 0.55);
  const port = await app.page.context().newCDPSession(app.page);
  const send = (type: "mousePressed" | "mouseMoved", dx: number, buttons: number) =>
    port.send("Input.dispatchMouseEvent", {
      type,
      x: x + dx,
      y,
      button: buttons ? "left" : "none",
      buttons,
      clickCount: 1,
    });
  await send("mouseMoved", 0, 0);
  await send("mousePressed", 0, 1);
  await send("mouseMoved", 60, 1);
  await send("mouseMoved", 120, 1);
  await send("mouseMoved", 160, 0);
  await port.send("Input.dispatchMouseEvent", { type: "mouseReleased", x: x + 160, y, button: "left", clickCount: 1 });

  expect(await saved(app.page)).toEqual(start);
});

test("a stretch shifts, a bend comes by double click and goes by Delete of the pipe", async () => {
  await dragMouse(app.page, at(2, 1), at(2, 1.2));
  const raised = await saved(app.page);
  expect(part(raised, "supply").route[0][1]).toBeGreaterThan(1.1);
  const level = part(raised, "supply").route[0][1];

  await app.page.mouse.dblclick(...at(2.2, level));
  expect(part(await saved(app.page), "supply").route.length).toBe(4);

  await app.page.keyboard.press("Delete");
  const without = await saved(app.page);
  expect(without.parts.map((p) => p.id)).not.toContain("supply");
  expect(without.parts.map((p) => p.id)).not.toContain("breather");
});

test("an end is pulled off, hangs in the air, and is put onto another pipe as a tee", async () => {
  await app.page.mouse.click(...at(2, 1));
  await dragMouse(app.page, at(4, 0.1), at(3.4, 1.5));
  expect(part(await saved(app.page), "supply").to).toMatchObject({ open: true });

  const end = part(await saved(app.page), "supply").to;
  await dragMouse(app.page, at(end.x, end.z), at(3.2, 0.61));
  expect(part(await saved(app.page), "supply").to).toMatchObject({ pipe: "return" });
});

test("a breather slides along its pipe and its open end is pulled up", async () => {
  const tee = 0.5 + (4 - 1.5);
  await dragMouse(app.page, at(tee, 1.03), at(tee - 1, 1.03));
  const slid = part(await saved(app.page), "breather");
  expect(slid.on.at).toBeLessThan(3.3);

  await dragMouse(app.page, at(slid.on.at - 1, 1.3), at(slid.on.at - 1, 1.5));
  expect(part(await saved(app.page), "breather").openEndZ).toBeGreaterThan(1.4);
});

test("edges of a chosen body change its size and the stone's top its depth", async () => {
  await app.page.mouse.click(...at(4.9, 0.55));
  await dragMouse(app.page, at(4.6, 0.8), at(4.6, 0.9));
  const higher = await saved(app.page);
  expect(part(higher, "trough").rimLevel).toBeGreaterThan(0.85);

  await dragMouse(app.page, at(4.3, 0.3), at(4.3, 0.4));
  expect(part(await saved(app.page), "trough").media[0].depth).toBeGreaterThan(0.35);
});

test("a marquee chooses, Ctrl D doubles, arrows nudge as one step, Ctrl C and V copy", async () => {
  await dragMouse(app.page, at(3.9, -0.15), at(5.4, 0.95));
  await app.page.keyboard.press("Control+d");
  expect((await saved(app.page)).parts.filter((p) => p.kind === "vessel").length).toBe(2);
  const before = part(await saved(app.page), "trough-2").x;
  for (let i = 0; i < 5; i++) await app.page.keyboard.press("ArrowRight");
  expect(part(await saved(app.page), "trough-2").x).toBeCloseTo(before + 0.05, 6);
  await app.page.keyboard.press("Control+z");
  expect(part(await saved(app.page), "trough-2").x).toBeCloseTo(before, 6);
  await app.page.keyboard.press("Control+z");
  expect(await saved(app.page)).toEqual(start);
});

test("Ctrl V twice sets two troughs down beside one another, each with a name of its own", async () => {
  await app.page.mouse.click(...at(4.9, 0.55));
  await app.page.keyboard.press("Control+c");
  await app.page.keyboard.press("Control+v");
  await app.page.keyboard.press("Control+v");

  const troughs = (await saved(app.page)).parts.filter((p) => p.kind === "vessel");
  expect(troughs.map(({ label, x }) => [label, x])).toEqual([
    ["Trough", 4],
    ["Trough 2", 4.2],
    ["Trough 3", 4.4],
  ]);
});

test("the wheel moves the sheet, with Ctrl it zooms at the pointer, and the drawing stays as it is", async () => {
  const text = await savedText(app.page);
  const pointer = at(4.6, 0.5);
  await app.page.mouse.move(...pointer);
  await app.page.keyboard.down("Control");
  await app.page.mouse.wheel(0, -60);
  await app.page.keyboard.up("Control");
  await app.page.mouse.click(...pointer);
  await expect.poll(() => app.page.locator("#slip h2").textContent()).toBe("Trough");
  await app.page.keyboard.press("Escape");
  await app.page.mouse.wheel(0, 80);
  await app.page.keyboard.press("0");

  expect(await savedText(app.page)).toBe(text);
});

test("the space bar takes hold of the sheet, whichever button was pressed last, and else presses that button", async () => {
  const { page } = app;
  const seen = () => page.screenshot({ clip: { x: 300, y: 150, width: 800, height: 500 } });
  const buttons = [() => word(page, "Pipe"), () => word(page, "Redo"), () => partStops(page, /^Trough/)];
  for (const button of buttons) {
    await button().focus();
    const before = await seen();
    const [x, y] = at(4.9, 0.55);
    await page.mouse.move(x, y);
    await page.keyboard.down(" ");
    await page.mouse.down();
    await page.mouse.move(x + 60, y + 30, { steps: 4 });
    await page.mouse.up();
    await page.keyboard.up(" ");
    expect(await saved(page)).toEqual(start);
    expect(await word(page, "Pipe").getAttribute("aria-pressed")).toBe("false");
    expect((await seen()).equals(before)).toBe(false);
    await page.mouse.move(x + 60, y + 30);
    await page.mouse.click(x + 60, y + 30);
    await expect.poll(() => page.locator("#slip h2").textContent()).toBe("Trough");
    await page.keyboard.press("Escape");
    await page.keyboard.press("0");
  }

  await word(page, "Pond").focus();
  await page.keyboard.press(" ");
  expect((await saved(page)).parts.filter(({ kind }) => kind === "pond").length).toBe(2);
});

test.each(["by its word", "by its letter"])(
  "a pipe's first end is let go when another stencil is taken %s",
  async (how) => {
    const { page } = app;
    await word(page, "Pipe").click();
    await page.mouse.click(...at(1.5, 1.4));
    await page.mouse.move(...at(2, 1.5));
    if (how === "by its word") await word(page, "Pond").click();
    else await page.keyboard.press("p");
    await page.mouse.move(...at(2.4, 1.5), { steps: 3 });
    await page.mouse.down();
    await page.mouse.up();

    const kinds = (await saved(page)).parts.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === "pond").length).toBe(2);
    expect(kinds.filter((kind) => kind === "pipe").length).toBe(2);
  },
);

test("a wheel that is turned without end leaves a bit of the drawing in the window", async () => {
  const { width } = app.page.viewportSize() as { width: number };
  for (const [way, seen, name] of [
    [1, [30, at(4.6, 0.5)[1]], "Trough"],
    [-1, [width - 30, at(0.3, -0.4)[1]], "Basin"],
  ] as const) {
    await app.page.mouse.move(...at(4.6, 0.5));
    for (let k = 0; k < 12; k++) await app.page.mouse.wheel(way * 2000, 0);
    await app.page.mouse.click(seen[0], seen[1]);
    await expect.poll(() => app.page.locator("#slip h2").textContent()).toBe(name);
    await app.page.keyboard.press("Escape");
    await app.page.keyboard.press("0");
  }
});

test("a part snaps to another's level, and says so; with Alt it does not", async () => {
  const goal = 0.05 + 0.012;
  await app.page.mouse.move(...at(4.9, 0.55));
  await app.page.mouse.down();
  await app.page.mouse.move(...at(4.9, 0.55 + goal), { steps: 8 });
  await app.page.mouse.up();
  expect(part(await saved(app.page), "trough").baseLevel).toBeCloseTo(0.05, 6);

  await app.page.keyboard.press("Control+z");
  await app.page.keyboard.down("Alt");
  await dragMouse(app.page, at(4.9, 0.55), at(4.9, 0.55 + goal));
  await app.page.keyboard.up("Alt");
  expect(part(await saved(app.page), "trough").baseLevel).not.toBeCloseTo(0.05, 3);
});

const centre = async (stencil: string): Promise<Px> => {
  const box = await word(app.page, stencil).boundingBox();
  if (!box) throw new Error(`no ${stencil}`);
  return [box.x + box.width / 2, box.y + box.height / 2];
};
const guideNames = () => app.page.locator(".guide").allInnerTexts();
const tagLevel = () => app.page.locator(".tag .level").textContent();

test("a pipe that is pulled snaps to a level with both ends, shows it, and lets go with Alt", async () => {
  await word(app.page, "Pipe").click();
  await app.page.mouse.move(...at(5.7, 0.4), { steps: 3 });
  await expect.poll(tagLevel).toBe("+0.400 m");
  expect(await guideNames()).toEqual([]);
  await app.page.mouse.move(...at(5.6, 0.786), { steps: 3 });
  await expect.poll(guideNames).toEqual(["rim of Trough"]);
  expect(await tagLevel()).toBe("+0.800 m");

  await app.page.mouse.down();
  await app.page.mouse.move(...at(5.9, 0.062), { steps: 6 });
  await expect.poll(guideNames).toEqual(["rim of Basin"]);
  expect(await tagLevel()).toBe("+0.050 m");
  await app.page.mouse.up();
  const pulled = partOf(await saved(app.page), "pipe", 2);
  expect([pulled.from.z, pulled.to.z]).toEqual([0.8, 0.05]);
  expect(await guideNames()).toEqual([]);

  await app.page.keyboard.press("Control+z");
  await word(app.page, "Pipe").click();
  await app.page.mouse.move(...at(5.6, 0.786), { steps: 3 });
  await app.page.mouse.down();
  await app.page.mouse.move(...at(5.9, 0.062), { steps: 6 });
  await app.page.keyboard.down("Alt");
  await expect.poll(guideNames).toEqual([]);
  await app.page.mouse.up();
  await app.page.keyboard.up("Alt");
  const free = partOf(await saved(app.page), "pipe", 2);
  expect(free.from.z).toBe(0.8);
  expect(Math.abs(free.to.z - 0.062)).toBeLessThan(0.006);
  expect(free.route).toBeUndefined();
});

test("a pipe whose first end was clicked keeps it on the site while the wheel moves the sheet", async () => {
  await word(app.page, "Pipe").click();
  await app.page.mouse.click(...at(5.6, 0.3));
  const [x, y] = at(5.9, 0.55);
  await app.page.mouse.move(x, y, { steps: 4 });
  await app.page.mouse.wheel(120, 0);
  await app.page.mouse.move(x + 1, y, { steps: 2 });
  await app.page.mouse.click(x, y);

  const pulled = partOf(await saved(app.page), "pipe", 2);
  const scale = at(6.9, 0)[0] - at(5.9, 0)[0];
  expect(pulled.from.x).toBeCloseTo(5.6, 1);
  expect(Math.abs((pulled.to.x - 5.9) * scale - 120)).toBeLessThan(12);
});

test("a vessel from the stencils snaps to a level and an edge, shows both, and lets go with Alt", async () => {
  const goal = [4 + 0.45 + 0.015, 0.8 + 0.4 + 0.015] as const;
  await word(app.page, "Vessel").click();
  await app.page.mouse.move(...at(...goal), { steps: 4 });
  await expect.poll(guideNames).toEqual(["edge of Trough", "rim of Trough"]);
  expect(await tagLevel()).toBe("+0.800 m");
  await app.page.mouse.down();
  await app.page.mouse.up();
  expect(partOf(await saved(app.page), "vessel", 1)).toMatchObject({ x: 4, baseLevel: 0.8 });
  expect(await guideNames()).toEqual([]);

  await app.page.keyboard.press("Control+z");
  await word(app.page, "Vessel").click();
  await app.page.mouse.move(...at(...goal), { steps: 4 });
  await app.page.keyboard.down("Alt");
  await expect.poll(guideNames).toEqual([]);
  await app.page.mouse.down();
  await app.page.mouse.up();
  await app.page.keyboard.up("Alt");
  const free = partOf(await saved(app.page), "vessel", 1);
  expect(Math.abs(free.x - 4.015)).toBeLessThan(0.006);
  expect(Math.abs(free.baseLevel - 0.815)).toBeLessThan(0.006);
});

const tags = () => app.page.locator(".tag").count();
const ids = () => saved(app.page).then((drawing) => drawing.parts.map(({ id }) => id));

test.each(["Vessel", "Pipe"])(
  "the stencil of a %s stays under the hand while the sheet is moved or zoomed below it",
  async (name) => {
    await word(app.page, name).click();
    await app.page.mouse.move(...at(3.2, 1.2), { steps: 3 });
    const level = async () => Number((await tagLevel())?.replace("−", "-").replace(" m", ""));
    await expect.poll(level).toBeGreaterThan(0.5);
    const first = await level();
    await app.page.mouse.wheel(0, 100);
    const metre = at(0, 0)[1] - at(0, 1)[1];
    await expect.poll(async () => Math.abs(first - 100 / metre - (await level()))).toBeLessThan(0.06);
    const moved = await level();
    await app.page.keyboard.press("+");
    await expect.poll(level).not.toBe(moved);
  },
);

test("a stencil that is put back or changed by its letter takes its ghost along, and the drawing is what is shown", async () => {
  await app.page.keyboard.press("f");
  await app.page.mouse.move(...at(3.2, 1.2), { steps: 3 });
  await expect.poll(tags).toBe(1);
  await app.page.keyboard.press("f");
  await expect.poll(tags).toBe(0);
  await app.page.mouse.click(...at(4.9, 0.55));
  await app.page.locator("#slip h2").waitFor();

  await app.page.keyboard.press("Escape");
  await app.page.keyboard.press("f");
  await app.page.mouse.move(...at(3.2, 1.2), { steps: 3 });
  await expect.poll(() => app.page.locator(".tag").textContent()).toMatch(/Holds its water/);
  await app.page.keyboard.press("i");
  // The level of a pipe's end alone: no vessel is under the hand any more.
  await expect.poll(() => app.page.locator(".tag").textContent()).toMatch(/^\+1\.\d+ m$/);
});

test("a drawing that changes under a stencil, or goes, leaves no tag behind", async () => {
  await app.page.keyboard.press("Control+a");
  await app.page.keyboard.press("f");
  await app.page.mouse.move(...at(3.2, 1.2), { steps: 3 });
  await expect.poll(tags).toBe(1);
  await app.page.keyboard.press("ArrowUp");
  await expect.poll(() => app.page.locator(".tag").textContent()).toMatch(/Holds its water/);
  await app.page.keyboard.press("Escape");
  await expect.poll(tags).toBe(0);
});

test.each(["the middle button", "the space bar"])(
  "a pipe that waits for its second end still does after the sheet was moved by %s",
  async (by) => {
    await word(app.page, "Pipe").click();
    await app.page.mouse.click(...at(5.6, 0.3));
    const [x, y] = at(5.9, 0.55);
    await app.page.mouse.move(x, y, { steps: 4 });
    const button = by === "the middle button" ? "middle" : "left";
    if (button === "left") await app.page.keyboard.down(" ");
    await app.page.mouse.down({ button });
    await app.page.mouse.move(x - 90, y, { steps: 4 });
    expect(await tags()).toBe(0);
    await app.page.mouse.up({ button });
    if (button === "left") await app.page.keyboard.up(" ");
    await app.page.mouse.move(x - 80, y, { steps: 2 });
    await expect.poll(tags).toBe(1);
    await app.page.mouse.click(x - 80, y);

    const pulled = partOf(await saved(app.page), "pipe", 2);
    const metre = at(1, 0)[0] - at(0, 0)[0];
    expect(pulled.from.x).toBeCloseTo(5.6, 1);
    expect(Math.abs((pulled.to.x - 5.9) * metre - 10)).toBeLessThan(12);
  },
);

test("a press on the pipe's stencil that trembles takes it all the same", async () => {
  const [x, y] = await centre("Pipe");
  await dragMouse(app.page, [x - 8, y], [x + 8, y + 2]);
  expect(await word(app.page, "Pipe").getAttribute("aria-pressed")).toBe("true");
});

test("a double click that sets down a pipe's second end puts no bend on it", async () => {
  await word(app.page, "Pipe").click();
  await app.page.mouse.click(...at(5.6, 1.3));
  await app.page.mouse.move(...at(5.9, 1.3), { steps: 3 });
  await app.page.mouse.dblclick(...at(5.9, 1.3));

  const pulled = partOf(await saved(app.page), "pipe", 2);
  expect(pulled.route).toBeUndefined();
  await app.page.keyboard.press("Control+z");
  expect(await ids()).toEqual(start.parts.map(({ id }) => id));
});

test("a pull that would be refused shows no pipe, no flow and no verdict", async () => {
  await word(app.page, "Pipe").click();
  await app.page.keyboard.down("Alt");
  await app.page.mouse.move(...at(5.2, 0.5));
  await app.page.mouse.down();
  await app.page.mouse.move(...at(5.6, 0.8), { steps: 4 });
  await expect.poll(tags).toBe(1);
  // Back at the wall, where both ends would be one opening.
  const [x, y] = at(5.2, 0.5);
  await app.page.mouse.move(x - 10, y, { steps: 4 });
  await expect.poll(tags).toBe(0);
  await app.page.mouse.up();
  await app.page.keyboard.up("Alt");
  expect(await app.page.getByRole("alert").textContent()).toContain("two ends");
  expect(await ids()).toEqual(start.parts.map(({ id }) => id));
});

test("where a stencil or a pipe's end can not be set down, over the title block or the stencils, neither is shown", async () => {
  const title: Px = [1250, 830];
  const [x, y] = await centre("Vessel");
  await app.page.mouse.move(x, y);
  await app.page.mouse.down();
  await app.page.mouse.move(...at(3.4, 1.2), { steps: 6 });
  await expect.poll(tags).toBe(1);
  await app.page.mouse.move(...title, { steps: 6 });
  await expect.poll(tags).toBe(0);
  await app.page.mouse.move(x + 40, y, { steps: 6 });
  expect(await tags()).toBe(0);
  await app.page.mouse.up();

  await word(app.page, "Pipe").click();
  await app.page.mouse.move(...at(5.6, 0.3));
  await app.page.mouse.down();
  await app.page.mouse.move(...title, { steps: 6 });
  await expect.poll(tags).toBe(0);
  await app.page.mouse.up();
  expect(await ids()).toEqual(start.parts.map(({ id }) => id));
});

test("the pipe's stencil is pulled onto the sheet like the others: there its first end is set down", async () => {
  await app.page.mouse.move(...(await centre("Pipe")));
  await app.page.mouse.down();
  await app.page.mouse.move(...at(5.6, 0.3), { steps: 6 });
  await app.page.mouse.up();
  await app.page.mouse.move(...at(5.9, 0.55), { steps: 4 });
  await app.page.mouse.click(...at(5.9, 0.55));

  const { from, to } = partOf(await saved(app.page), "pipe", 2);
  expect([from.x, from.z, to.x, to.z].map((value) => Math.round(value * 10) / 10)).toEqual([5.6, 0.3, 5.9, 0.6]);
});

test("a pipe's figures choose it, and pulling them does not move it", async () => {
  const supply = part(start, "supply");
  await dragMouse(app.page, at(1.75, 1.13), at(1.75, 0.4));
  expect(part(await saved(app.page), "supply")).toEqual(supply);
  await app.page.mouse.click(...at(1.75, 1.13));
  expect(await app.page.locator("#slip h2").textContent()).toBe("Supply");
});

test("a stencil that is let go over the sheet takes its guides along", async () => {
  await word(app.page, "Pipe").click();
  await app.page.mouse.move(...at(5.6, 0.786), { steps: 3 });
  await expect.poll(guideNames).toEqual(["rim of Trough"]);
  await app.page.keyboard.press("Escape");
  await expect.poll(guideNames).toEqual([]);
});

test("a field takes a length in feet, and nonsense keeps the old value and says what is understood", async () => {
  await app.page.mouse.click(...at(4.9, 0.55));
  const rim = app.page.getByLabel("Rim level");
  await rim.fill("3 ft");
  await rim.press("Enter");
  expect(part(await saved(app.page), "trough").rimLevel).toBeCloseTo(0.9144, 6);

  await rim.fill("about so high");
  await rim.press("Enter");
  await expect.poll(() => app.page.locator("#slip .trouble").textContent()).toMatch(/understood are/);
  expect(part(await saved(app.page), "trough").rimLevel).toBeCloseTo(0.9144, 6);

  await rim.fill("-2 m");
  await rim.press("Enter");
  await expect.poll(() => app.page.locator("#slip .trouble").textContent()).toMatch(/expected/);
  expect(part(await saved(app.page), "trough").rimLevel).toBeCloseTo(0.9144, 6);
});

test("a place is typed to either side of where places are reckoned from, a length is not", async () => {
  await app.page.mouse.click(...at(4.9, 0.55));
  const edge = app.page.getByLabel("Left edge");
  await edge.fill("-0.5 m");
  await edge.press("Enter");
  expect(part(await saved(app.page), "trough").x).toBe(-0.5);
  await edge.fill("−1 ft 6 in");
  await edge.press("Enter");
  expect(part(await saved(app.page), "trough").x).toBeCloseTo(-0.4572, 9);

  const width = app.page.getByLabel("Width, as drawn");
  await width.fill("-1 m");
  await width.press("Enter");
  await expect.poll(() => app.page.locator("#slip .trouble").textContent()).toMatch(/can not be negative/);
});

test("a rim that is typed below an opening says what gave way", async () => {
  await app.page.mouse.click(...at(4.9, 0.55));
  const rim = app.page.getByLabel("Rim level");
  await rim.fill("0.9 m");
  await rim.press("Enter");
  expect(await app.page.getByRole("alert").count()).toBe(0);
  await rim.fill("0.5 m");
  await rim.press("Enter");
  await expect.poll(() => app.page.getByRole("alert").textContent()).toMatch(/^Return gave way, to stay within it/);
  expect(part(await saved(app.page), "return").from.z).toBe(0.5);
});

test("what is typed and not entered yet is kept before another drawing is opened or dropped", async () => {
  const level = () => saved(app.page).then((drawing) => part(drawing, "trough").rimLevel);
  await app.page.mouse.click(...at(4.9, 0.55));
  const rim = app.page.getByLabel("Rim level");
  await rim.fill("0.9 m");
  await Promise.all([app.page.waitForEvent("filechooser"), app.page.keyboard.press("Control+o")]);
  expect(await word(app.page, "Undo").isEnabled()).toBe(true);
  expect(await level()).toBe(0.9);

  await rim.fill("0.95 m");
  await app.page.dispatchEvent(".desk", "drop", {
    dataTransfer: await app.page.evaluateHandle(() => new DataTransfer()),
  });
  expect(await app.page.evaluate(() => document.activeElement?.tagName)).not.toBe("INPUT");
  expect(await level()).toBe(0.95);
});

test("a valve dropped beside every pipe is refused in words", async () => {
  await setDown(app.page, "Valve", at(1.5, -0.5));

  expect(await app.page.getByRole("alert").textContent()).toContain("pipe");
  await app.page.keyboard.press("Escape");
  await app.page.keyboard.press("Escape");
  expect(partOf(await saved(app.page), "pond")).toEqual(partOf(start, "pond"));
});
