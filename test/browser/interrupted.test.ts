/** What comes between in the middle of a drag, by real mouse, keys and fingers: whatever was held and whatever came, the
 * drawing can be read again, at most one step was taken, and taking it back gives the first drawing to the letter. */
import type { CDPSession, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readSection, writeSection } from "../../hydraulics/index.ts";
import type { App } from "../support/app.ts";
import { type Px, savedText, word } from "./sheet.ts";
import { type Fingers, fingersOn } from "./touch.ts";
import { openYard } from "./yard.ts";

let app: App;
let page: Page;
let port: CDPSession;
let fingers: Fingers;
let at: (x: number, z: number) => Px;
let start: string;

beforeAll(async () => {
  ({ app, at } = await openYard({ hasTouch: true, viewport: { width: 1240, height: 780 } }));
  page = app.page;
  port = await page.context().newCDPSession(page);
  fingers = await fingersOn(page);
  start = await savedText(page);
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

interface Held {
  readonly from: Px;
  /** where to, within the sheet */
  readonly to: Px;
  /** what is done before the hand takes hold */
  readonly first?: () => Promise<void>;
}

const held: Readonly<Record<string, () => Held>> = {
  "a vessel": () => ({ from: at(4.9, 0.55), to: at(5.3, 0.75) }),
  "a pipe's end": () => ({ from: at(4, 0.1), to: at(3.4, 1.4), first: () => page.mouse.click(...at(2, 1)) }),
  "a corner of a marquee": () => ({ from: at(3.7, 1.6), to: at(5.6, -0.2) }),
  "a new pond": () => ({ from: at(5.9, 1.1), to: at(5.6, 1.3), first: () => word(page, "Pond").click() }),
  "a new pipe": () => ({ from: at(1.3, 1.5), to: at(2.4, 1.4), first: () => word(page, "Pipe").click() }),
};

const key = (name: string) => () => page.keyboard.press(name);
const button = (type: "mousePressed" | "mouseReleased", [x, y]: Px, buttons: number) =>
  port.send("Input.dispatchMouseEvent", { type, x, y, button: "right", buttons, clickCount: 1 });

const between: Readonly<Record<string, (there: Px) => Promise<unknown>>> = {
  // Then each but the marquee is a step.
  nothing: async () => {},
  Escape: key("Escape"),
  "a step back": key("Control+z"),
  Delete: key("Delete"),
  "an arrow key": key("ArrowRight"),
  "another window's size": async () => {
    await page.setViewportSize({ width: 1000, height: 620 });
    await page.setViewportSize({ width: 1240, height: 780 });
  },
  // The focus goes to a page within the page: the window loses it as it does to another window.
  "another window in front": () =>
    page.evaluate(async () => {
      const other = document.body.appendChild(document.createElement("iframe"));
      const lost = new Promise((lose) => window.addEventListener("blur", lose, { once: true }));
      other.contentWindow?.focus();
      await lost;
      other.remove();
    }),
  "the right button": async (there) => {
    await button("mousePressed", there, 3);
    await button("mouseReleased", there, 1);
  },
  "a finger": async ([x, y]) => {
    await fingers.down([x + 60, y + 60]);
    await fingers.move([x + 70, y + 90]);
    await fingers.up();
  },
};

async function leave(): Promise<void> {
  for (let k = 0; k < 4; k++) await page.keyboard.press("Escape");
}

test("a stencil that is let go over another window is not set down", async () => {
  const box = await word(page, "Pond").boundingBox();
  const [x, y] = at(5.6, 1.3);
  const send = (type: "mousePressed" | "mouseMoved" | "mouseReleased", place: Px, buttons: number) =>
    port.send("Input.dispatchMouseEvent", {
      type,
      x: place[0],
      y: place[1],
      button: type === "mouseMoved" && buttons === 0 ? "none" : "left",
      buttons,
      clickCount: 1,
    });
  const stencil: Px = [(box?.x ?? 0) + 10, (box?.y ?? 0) + 10];
  await send("mouseMoved", stencil, 0);
  await send("mousePressed", stencil, 1);
  await send("mouseMoved", [x, y - 40], 1);
  await send("mouseMoved", [x, y], 1);
  await send("mouseMoved", [x + 10, y], 0);
  await send("mouseReleased", [x + 10, y], 0);

  expect(await savedText(page)).toBe(start);
  await leave();
});

test.each(Object.keys(between))(
  "%s in the middle of a drag",
  async (name) => {
    for (const what of Object.keys(held)) {
      const { from, to, first } = (held[what] as () => Held)();
      await first?.();
      await page.mouse.move(...from);
      await page.mouse.down();
      const middle: Px = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
      await page.mouse.move(...middle, { steps: 3 });
      await between[name]?.(middle);
      await page.mouse.move(...to, { steps: 2 });
      await page.mouse.up();
      await leave();

      const text = await savedText(page);
      const read = readSection(text);
      expect(read.ok && writeSection(read.value), what).toBe(text);
      if (name === "nothing") expect(text !== start, `${what}: a step`).toBe(what !== "a corner of a marquee");
      if (text !== start) await page.keyboard.press("Control+z");
      expect(await word(page, "Undo").isDisabled(), `${what}: no second step`).toBe(true);
      expect(await savedText(page), what).toBe(start);
      await leave();
    }
  },
  30_000,
);
