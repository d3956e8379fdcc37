/** Five hundred gestures in no order, by mouse, keys and fingers as the browser gets them: whatever is done, the
 * drawing can be read again, the page complains of nothing, and undoing all of it gives back the first drawing to the
 * letter. Seeded; a failure prints the seed and the last gestures. */
import type { CDPSession, Page } from "playwright-core";
import { expect, test } from "vitest";
import { type Part, type Point, pipeLine, readSection, type Section, writeSection } from "../../hydraulics/index.ts";
import { openApp } from "../support/app.ts";
import { type Seeded, seeded } from "../support/seeded.ts";
import { drawn, openText, type Px, savedText, word } from "./sheet.ts";
import { type Fingers, fingersOn } from "./touch.ts";
import { yard } from "./yard.ts";

const gestures = 500;
const seed = Number(process.env.WALK_SEED ?? 20260);
/** gestures between two looks at the document */
const block = 50;
/** Small ones: a window costs by its pixels, and what is tried here is not its looks. */
const windows = [
  { width: 900, height: 640 },
  { width: 1024, height: 560 },
  { width: 390, height: 700 },
] as const;

interface Walk {
  readonly page: Page;
  readonly port: CDPSession;
  readonly fingers: Fingers;
  readonly random: Seeded;
  section: Section;
  /** px of a place on the sheet; moves and zooms make it stale until the next look */
  px: (place: Point) => Px;
  size: { readonly width: number; readonly height: number };
}

/** Mouse events are sent one after the other without waiting in between, as a quick hand does. */
async function mouse(walk: Walk, places: readonly Px[], options: Mouse = {}): Promise<void> {
  const { button = "left", held = 0, clicks = 1, amid } = options;
  const send = (type: "mousePressed" | "mouseMoved" | "mouseReleased", [x, y]: Px, pressed: boolean) =>
    walk.port.send("Input.dispatchMouseEvent", {
      type,
      x,
      y,
      button: type === "mouseMoved" && !pressed ? "none" : button,
      buttons: pressed ? (button === "left" ? 1 : 2) : 0,
      clickCount: type === "mouseMoved" ? 0 : clicks,
      modifiers: held,
    });
  const [first, ...rest] = places as [Px, ...Px[]];
  const last = rest.at(-1) ?? first;
  const sent = [send("mouseMoved", first, false), send("mousePressed", first, true)];
  if (amid) {
    await Promise.all(sent.splice(0));
    await Promise.all(rest.slice(0, 1).map((place) => send("mouseMoved", place, true)));
    await amid();
  }
  await Promise.all([
    ...sent,
    ...rest.map((place) => send("mouseMoved", place, true)),
    send("mouseReleased", last, false),
  ]);
}

interface Mouse {
  readonly button?: "left" | "right";
  /** 1 Alt, 2 Ctrl, 8 Shift */
  readonly held?: number;
  readonly clicks?: number;
  /** done between the first and the last move */
  readonly amid?: () => Promise<void>;
}

/** A place where something is, near it, or anywhere on the sheet. */
function somewhere(walk: Walk): Px {
  const { random, section, size } = walk;
  const anywhere: Px = [random.between(60, size.width - 30), random.between(110, size.height * 0.7)];
  const parts = [...section.parts.values()];
  if (parts.length === 0 || random.chance(0.25)) return anywhere;
  const [x, y] = walk.px(placeOf(section, random.pick(parts), random));
  const place: Px = [x + random.between(-4, 4), y + random.between(-4, 4)];
  const inside = place[0] > 50 && place[0] < size.width - 20 && place[1] > 100 && place[1] < size.height * 0.72;
  return inside ? place : anywhere;
}

function placeOf(section: Section, part: Part, random: Seeded): Point {
  switch (part.kind) {
    case "pond":
      return [part.x + part.width * random.next(), random.pick([part.rimLevel, part.bedLevel, part.waterLevel])];
    case "vessel": {
      const width = part.plan.shape === "round" ? part.plan.diameter : part.plan.width;
      return [part.x + width * random.pick([0, 0.25, 0.5, 1]), random.between(part.baseLevel, part.rimLevel)];
    }
    case "pump":
    case "note":
      return [part.x, part.z];
    case "pipe": {
      const line = pipeLine(section, part);
      const k = random.whole(0, line.length - 2);
      const [a, b] = [line[k] ?? [0, 0], line[k + 1] ?? [0, 0]];
      const t = random.pick([0, 0.3, 0.6, 1]);
      return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    }
    case "valve":
    case "checkValve":
    case "vent": {
      const pipe = section.parts.get(part.on.pipe);
      const line = pipe?.kind === "pipe" ? pipeLine(section, pipe) : [];
      return line[Math.min(1, line.length - 1)] ?? [0, 0];
    }
    case "spillway":
      return [0, part.crestZ];
  }
}

const moved = (walk: Walk, [x, y]: Px, far: number): Px => [
  x + walk.random.between(-far, far),
  y + walk.random.between(-far, far),
];

const typed = [
  "2.4 m",
  "8 ft 3 in",
  "-0.2",
  "1 1/2 in",
  "600 L/h",
  "0",
  "1e9",
  "",
  "about so",
  "<b>&amp;\u202e",
  "∞",
  "-1000 m",
  "0.03",
  "3",
] as const;

type Gesture = (walk: Walk) => Promise<void>;

const keys = (key: string): Gesture => {
  return ({ page }) => page.keyboard.press(key);
};

/** [how often, what it is, how it is done] */
const kinds: readonly (readonly [number, string, Gesture])[] = [
  [
    12,
    "place a part",
    async (walk) => {
      await walk.page.keyboard.press(walk.random.pick(["p", "f", "u", "v", "k", "b", "l", "t"]));
      await mouse(walk, [somewhere(walk)]);
    },
  ],
  [
    10,
    "pull a pipe",
    async (walk) => {
      await walk.page.keyboard.press("i");
      const from = somewhere(walk);
      await mouse(walk, [from, moved(walk, from, 40), somewhere(walk)], { held: walk.random.chance(0.2) ? 1 : 0 });
    },
  ],
  [
    22,
    "drag",
    async (walk) => {
      const from = somewhere(walk);
      const to = walk.random.chance(0.3) ? somewhere(walk) : moved(walk, from, 120);
      await mouse(walk, [from, moved(walk, from, 20), to], { held: walk.random.chance(0.2) ? 1 : 0 });
    },
  ],
  [8, "click", (walk) => mouse(walk, [somewhere(walk)], { held: walk.random.chance(0.3) ? 8 : 0 })],
  [
    6,
    "double click",
    async (walk) => {
      const at = somewhere(walk);
      await mouse(walk, [at]);
      await mouse(walk, [at], { clicks: 2 });
    },
  ],
  [
    5,
    "undo in mid drag",
    async (walk) => {
      const from = somewhere(walk);
      const undo = walk.random.pick(["Control+z", "Control+y"]);
      await mouse(walk, [from, moved(walk, from, 60), somewhere(walk)], { amid: () => walk.page.keyboard.press(undo) });
    },
  ],
  [
    5,
    "escape in mid drag",
    async (walk) => {
      const from = somewhere(walk);
      await mouse(walk, [from, moved(walk, from, 60), somewhere(walk)], {
        amid: () => walk.page.keyboard.press("Escape"),
      });
    },
  ],
  [
    4,
    "delete in mid drag",
    async (walk) => {
      const from = somewhere(walk);
      await mouse(walk, [from, moved(walk, from, 60), somewhere(walk)], {
        amid: () => walk.page.keyboard.press("Delete"),
      });
    },
  ],
  [7, "undo", keys("Control+z")],
  [5, "redo", keys("Control+y")],
  [3, "escape", keys("Escape")],
  [3, "delete", keys("Delete")],
  [4, "nudge", (walk) => walk.page.keyboard.press(walk.random.pick(["ArrowLeft", "ArrowUp", "Shift+ArrowRight"]))],
  [2, "duplicate", keys("Control+d")],
  [2, "copy", keys("Control+c")],
  [2, "cut", keys("Control+x")],
  [4, "paste", keys("Control+v")],
  [1, "choose everything", keys("Control+a")],
  [
    9,
    "type into a field",
    async ({ page, random }) => {
      const k = random.next();
      const there = await page.evaluate((share) => {
        const fields = document.querySelectorAll<HTMLInputElement>("#slip input, #slip textarea");
        const field = fields[Math.floor(share * fields.length)];
        field?.focus();
        field?.select();
        return field !== undefined;
      }, k);
      if (!there) return;
      await page.keyboard.insertText(random.pick(typed));
      await page.keyboard.press(random.pick(["Enter", "Tab", "Escape"]));
      await page.keyboard.press("Escape");
    },
  ],
  [
    4,
    "choose in a menu",
    async (walk) => {
      await mouse(walk, [somewhere(walk)], { button: "right" });
      for (let k = walk.random.whole(0, 6); k > 0; k--) await walk.page.keyboard.press("ArrowDown");
      await walk.page.keyboard.press(walk.random.pick(["Enter", "Escape"]));
    },
  ],
  [
    4,
    "drag with a finger",
    async (walk) => {
      const from = somewhere(walk);
      await walk.fingers.drag([from], [moved(walk, from, 120)], 2);
    },
  ],
  [
    2,
    "a second finger in mid drag",
    async (walk) => {
      const from = somewhere(walk);
      const by = moved(walk, from, 60);
      await walk.fingers.down(from);
      await walk.fingers.move(by);
      await walk.fingers.down(by, [by[0] + 60, by[1] + 40]);
      await walk.fingers.move(by, [by[0] + 64, by[1] + 40]);
      await walk.fingers.up();
    },
  ],
];

/** What moves the sheet under the hand comes last in a block. */
const upheavals: readonly (readonly [string, Gesture])[] = [
  [
    "resize the window",
    async (walk) => {
      walk.size = walk.random.pick(windows);
      await walk.page.setViewportSize(walk.size);
    },
  ],
  [
    "resize the window in mid drag",
    async (walk) => {
      walk.size = walk.random.pick(windows);
      const from = somewhere(walk);
      await mouse(walk, [from, moved(walk, from, 60), moved(walk, from, 60)], {
        amid: () => walk.page.setViewportSize(walk.size),
      });
    },
  ],
  [
    "zoom by wheel",
    (walk) =>
      walk.port
        .send("Input.dispatchMouseEvent", { type: "mouseWheel", x: 400, y: 300, deltaX: 0, deltaY: -40, modifiers: 2 })
        .then(() => undefined),
  ],
  [
    "pinch",
    ({ fingers }) =>
      fingers.drag(
        [
          [200, 300],
          [300, 320],
        ],
        [
          [160, 280],
          [330, 360],
        ],
        3,
      ),
  ],
];

async function look(walk: Walk): Promise<void> {
  const { page } = walk;
  const text = await savedText(page);
  const read = readSection(text);
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  expect(writeSection(read.value)).toBe(text);
  walk.section = read.value;
}

/** Two notes set down by the hand tell where the sheet lies now. They stay: they are gestures too. */
async function orient(walk: Walk): Promise<void> {
  const { page, size } = walk;
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await page.keyboard.press("0");
  // So many parts are slow to draw, and a sheet that is emptied at once has to come back too.
  if (walk.section.parts.size > 45) {
    await page.keyboard.press("Control+a");
    await page.keyboard.press("Delete");
  }
  const places: readonly [Px, Px] = [
    [size.width * 0.3, size.height * 0.3],
    [size.width * 0.6, size.height * 0.5],
  ];
  for (const place of places) {
    await page.keyboard.press("t");
    await mouse(walk, [place], { held: 1 });
    await page.keyboard.press("Escape");
  }
  await look(walk);
  const notes = [...walk.section.parts.values()].filter((part) => part.kind === "note").slice(-2);
  const [a, b] = notes;
  if (!a || !b || a.x === b.x) return;
  const scale = (places[1][0] - places[0][0]) / (b.x - a.x);
  walk.px = ([x, z]) => [places[0][0] + (x - a.x) * scale, places[0][1] + (a.z - z) * scale];
}

const total = kinds.reduce((sum, [weight]) => sum + weight, 0);

function pickKind(random: Seeded): readonly [string, Gesture] {
  let left = random.next() * total;
  for (const [weight, name, gesture] of kinds) {
    left -= weight;
    if (left <= 0) return [name, gesture];
  }
  return ["escape", keys("Escape")];
}

test(`${gestures} gestures from seed ${seed} leave a drawing that can be read, and undo to the first one`, async () => {
  const app = await openApp({
    hasTouch: true,
    viewport: windows[0],
    permissions: ["clipboard-read", "clipboard-write"],
  });
  const { page } = app;
  await drawn(page);
  await openText(page, "yard.json", yard);
  await page.getByRole("heading", { name: /^Yard/ }).waitFor({ state: "attached" });
  const first = await savedText(page);
  const random = seeded(seed);
  const walk: Walk = {
    page,
    random,
    port: await page.context().newCDPSession(page),
    fingers: await fingersOn(page),
    section: { title: "", site: {}, parts: new Map() },
    px: () => [0, 0],
    size: windows[0],
  };
  const log: string[] = [];
  const began = performance.now();
  try {
    for (let done = 0; done < gestures; done++) {
      if (done % block === 0) await orient(walk);
      const [name, gesture] = done % block === block - 1 ? random.pick(upheavals) : pickKind(random);
      log.push(name);
      await gesture(walk);
      expect(app.complaints).toEqual([]);
    }
    await page.setViewportSize(windows[0]);
    await look(walk);
    // Back: some steps by the key, the rest by the first line of the list of steps.
    for (let k = 0; k < 6; k++) await page.keyboard.press("Escape");
    for (let k = 0; k < 60; k++) await page.keyboard.press("Control+z");
    await word(page, "Steps").click();
    await word(page, "As it was opened").click();
    await expect.poll(() => word(page, "Undo").isDisabled()).toBe(true);
    expect(await savedText(page)).toBe(first);
    expect(app.complaints).toEqual([]);
  } catch (error) {
    throw new Error(`seed ${seed}, after ${log.length} gestures (${log.slice(-8).join(", ")})`, { cause: error });
  }
  console.log(`${gestures} gestures in ${((performance.now() - began) / 1000).toFixed(1)} s`);
  await app.close();
}, 300_000);
