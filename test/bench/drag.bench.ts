/** How smoothly a vessel is dragged on sheets of 11 to 1,000 parts: the built page in a real Chromium while the mouse
 * moves it, beside bare konva that paints the same pictures. Headless and without a graphics card, so rather slower
 * than on a desk.
 *
 * `step`: from the start of a frame until its script, style, layout and paint calls are done, the solve on this thread
 * included. `gap`: from frame to frame, raster included; not under 16.7 ms at 60 Hz. `all work`: the processor's
 * time that the page's main thread took in the drag, events and answers of the worker included, divided by the frames.
 * It is the one to compare on a machine that does other things too: the others count the waiting for it. */
import { build as bundle } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { projectionOf } from "../../editor/canvas/projection.ts";
import { buildScene, type SceneInput } from "../../editor/scene/build.ts";
import { fitSection } from "../../editor/scene/layout.ts";
import type { SceneNode } from "../../editor/scene/node.ts";
import { palettes, penWidths } from "../../editor/scene/palette.ts";
import { sameNode } from "../../editor/scene/sameNode.ts";
import { cameraOf, mmOfPx, transformOfCamera } from "../../editor/sheet/transform.ts";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import { type PartId, type Section, solveRunning, writeSection } from "../../hydraulics/index.ts";
import { launchChromium } from "../support/chromium.ts";
import { served } from "../support/served.ts";
import type { Drawn, Frames } from "./bareKonva.ts";
import { sideBySide } from "./sideBySide.ts";

const sizes = (process.env.SIZES ?? "11,60,200,1000").split(",").map(Number);
const size = { width: 1440, height: 900 };
/** px under the upper frame line that the page gives its stencils */
const headroom = mmOfPx(62);

export async function benchDrag(): Promise<void> {
  const ends: (() => unknown)[] = [];
  try {
    const page = await served("timed");
    ends.push(page.close);
    const launched = await launchChromium();
    ends.push(() => launched.close());
    const browser = await chromium.connect(launched.wsEndpoint());
    for (const count of sizes) {
      const { section, dragged } = sideBySide(count);
      const ours = await timeOurs(browser, page.address, section, dragged);
      print(`drag, ${count} parts, here`, ours);
      const frames = framesOf(section, dragged);
      for (const layers of [1, 2] as const) {
        const bare = await timeBare(browser, frames, layers);
        print(`drag, ${count} parts, bare konva, ${layers === 1 ? "one layer" : "what moves on its own layer"}`, bare);
        console.log(
          `${"".padEnd(58)} here / bare: step ${(ours.step[0] / bare.step[0]).toFixed(2)}   all work ${(ours.work / bare.work).toFixed(2)}`,
        );
      }
    }
  } finally {
    for (const end of ends.reverse()) await end();
  }
}

/** ms: p50 and p95, and the mean of all work a frame */
interface Timed {
  readonly step: readonly [number, number];
  readonly gap: readonly [number, number];
  readonly work: number;
  readonly frames: number;
}

function print(name: string, { step, gap, work, frames }: Timed): void {
  const ms = (value: number) => value.toFixed(1).padStart(6);
  console.log(
    `${name.padEnd(58)} step p50 ${ms(step[0])} p95 ${ms(step[1])}   gap p50 ${ms(gap[0])} p95 ${ms(gap[1])}   all work ${ms(work)} ms   ${frames} frames`,
  );
}

const moves = 120;
/** px off the place of the press, at each move */
const way = (k: number): readonly [number, number] => [40 * Math.sin(k / 10), -14 * Math.sin(k / 7)];

/** Of every frame in which something moved, how long its work took and how long after the one before it came. */
function probe(): void {
  const seen = { step: [] as number[], gap: [] as number[], moved: false };
  Object.assign(window, { seen });
  window.addEventListener("pointermove", () => {
    seen.moved = true;
  });
  const channel = new MessageChannel();
  let start = 0;
  let open = false;
  const done = (now: number): void => {
    if (open) seen.step.push(now - start);
    open = false;
  };
  channel.port1.onmessage = () => done(performance.now());
  const frame = (): void => {
    const now = performance.now();
    // Where the browser lets the message wait for the next frame, the work was done before that: an upper bound.
    done(now);
    requestAnimationFrame(frame);
    if (seen.moved) {
      seen.gap.push(now - start);
      // Comes after everything that this frame still has to do.
      channel.port2.postMessage(0);
      open = true;
    }
    seen.moved = false;
    start = now;
  };
  requestAnimationFrame(frame);
}

async function timed(page: Page, work: () => Promise<unknown>): Promise<Timed> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const busy = async (): Promise<number> => {
    const { metrics } = await session.send("Performance.getMetrics");
    return (metrics.find(({ name }) => name === "TaskDuration")?.value ?? Number.NaN) * 1000;
  };
  await page.evaluate(() => {
    const { seen } = window as unknown as { seen: { step: number[]; gap: number[] } };
    seen.step.length = 0;
    seen.gap.length = 0;
  });
  const before = await busy();
  await work();
  const took = (await busy()) - before;
  const { step, gap } = await page.evaluate(
    () => (window as unknown as { seen: { step: number[]; gap: number[] } }).seen,
  );
  const at = (list: readonly number[], share: number): number =>
    [...list].sort((a, b) => a - b)[Math.floor(share * (list.length - 1))] ?? Number.NaN;
  return {
    step: [at(step, 0.5), at(step, 0.95)],
    gap: [at(gap, 0.5), at(gap, 0.95)],
    work: took / gap.length,
    frames: gap.length,
  };
}

const cameraFor = (section: Section) =>
  cameraOf(fitSection(section, { width: mmOfPx(size.width), height: mmOfPx(size.height) }, { headroom }));

async function timeOurs(browser: Browser, address: string, section: Section, dragged: PartId): Promise<Timed> {
  const page = await browser.newPage({ viewport: size });
  await page.addInitScript(() => Reflect.deleteProperty(window, "showOpenFilePicker"));
  await page.addInitScript(probe);
  // The first listener takes a moment to reach the browser; a file window that opens in it would be lost.
  page.on("filechooser", () => {});
  await page.goto(address);
  await page.getByRole("toolbar", { name: "Stencils" }).waitFor();
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
  const buffer = Buffer.from(writeSection(section));
  await chooser.setFiles({ name: "sheet.json", mimeType: "application/json", buffer });
  await page.waitForTimeout(section.parts.size > 500 ? 6000 : 2500);
  const part = section.parts.get(dragged);
  if (part?.kind !== "vessel") throw new Error("no vessel to drag");
  // In the vessel's stones.
  const place = [part.x + 0.5, part.baseLevel + 0.32] as const;
  const [x, y] = projectionOf(cameraFor(section)).px("site", place);
  const before = await picture(page);
  await page.mouse.move(x, y);
  await page.mouse.down();
  // A drag's first frames paint what rests for the last time; they are part of every drag, but of none of its steps.
  for (let k = 0; k < 8; k++) await page.mouse.move(x + (way(k)[0] ?? 0), y + (way(k)[1] ?? 0));
  const result = await timed(page, async () => {
    for (let k = 8; k < 8 + moves; k++) {
      const [dx, dy] = way(k);
      await page.mouse.move(x + dx, y + dy);
    }
  });
  const moved = (await picture(page)) !== before;
  await page.mouse.up();
  await page.close();
  if (!moved) throw new Error("the drag moved nothing: its frames say nothing");
  return result;
}

const picture = async (page: Page): Promise<string> => (await page.screenshot()).toString("base64");

/** The pictures of the same drag as lists of nodes: the first whole, the others as what differs from it. */
function framesOf(section: Section, dragged: PartId): Frames {
  const camera = cameraFor(section);
  const projection = projectionOf(camera);
  let from: ReturnType<typeof solveRunning>["state"] | undefined;
  const nodesOf = (shown: Section): readonly SceneNode[] => {
    const { running, state } = solveRunning(shown, from ? { quick: true, from } : { quick: true });
    from = running.converged ? state : undefined;
    const input: SceneInput = {
      section: shown,
      running,
      powerCut: null,
      findings: [],
      view: {
        system: "metric",
        moment: null,
        transform: transformOfCamera(camera),
        paper: { width: mmOfPx(size.width), height: mmOfPx(size.height) },
        headroom,
      },
    };
    return buildScene(input);
  };
  const base = nodesOf(section);
  const known = new Map(base.map((node) => [node.key, node]));
  const changes: Drawn[][] = [];
  for (let k = 0; k < 24; k++) {
    const [dx, dy] = way(k * 5);
    const moved = moveParts(section, new Set([dragged]), dx / camera.scale, -dy / camera.scale);
    if (!moved.ok) throw new Error(moved.why);
    const nodes = nodesOf(moved.section);
    changes.push(nodes.filter((node) => !sameNode(node, known.get(node.key))).map((node) => drawn(node, projection)));
  }
  return { ...size, base: base.map((node) => drawn(node, projection)), changes, moves };
}

/** A node as konva takes it: in pixels, its colours and pens resolved. */
function drawn(node: SceneNode, projection: ReturnType<typeof projectionOf>): Drawn {
  const { pxPerMm, pxPerMetre } = projection;
  const colours = palettes.paper;
  const common = { key: node.key, opacity: node.opacity ?? 1 };
  const stroke = "stroke" in node && node.stroke !== "none" ? colours[node.stroke] : undefined;
  const fill = node.fill && node.fill !== "none" ? colours[node.fill] : undefined;
  if (node.shape === "text") {
    const [x, y] = projection.px(node.space, node.at, node.offset);
    const fontSize = node.size * pxPerMm;
    const width = projection.textWidth(node.text, fontSize, node.weight);
    const back = node.anchor === "start" ? 0 : node.anchor === "middle" ? width / 2 : width;
    const { text } = node;
    return { ...common, is: "Text", with: { x, y, offsetX: back, offsetY: fontSize, text, fontSize, fill } };
  }
  const strokeWidth = penWidths.screen[node.pen] * pxPerMm;
  if (node.shape === "line") {
    const points = node.points.flatMap((point, i) => [...projection.px(node.space, point, node.offsets?.[i])]);
    const width = node.siteWidth === undefined ? strokeWidth : Math.max(node.siteWidth * pxPerMetre, strokeWidth);
    return { ...common, is: "Line", with: { points, closed: node.closed === true, stroke, fill, strokeWidth: width } };
  }
  const [x, y] = projection.px(node.space, node.at, node.offset);
  if (node.shape === "circle") {
    const radius = node.radius * (node.siteRadius ? pxPerMetre : pxPerMm);
    return { ...common, is: "Circle", with: { x, y, radius, stroke, fill, strokeWidth } };
  }
  const scale = pxPerMm * (node.scale ?? 1);
  const { data } = node;
  return {
    ...common,
    is: "Path",
    with: {
      x,
      y,
      data,
      rotation: node.turn ?? 0,
      scaleX: scale,
      scaleY: scale,
      stroke,
      fill,
      strokeWidth: strokeWidth / scale,
    },
  };
}

async function timeBare(browser: Browser, frames: Frames, layers: 1 | 2): Promise<Timed> {
  const { outputFiles } = await bundle({
    entryPoints: ["test/bench/bareKonva.ts"],
    bundle: true,
    write: false,
    format: "iife",
    minify: true,
    define: { "process.env.NODE_ENV": '"production"' },
    logLevel: "error",
  });
  const page = await browser.newPage({ viewport: size });
  await page.addInitScript(probe);
  await page.goto("data:text/html,<!doctype html><body style='margin:0'><div id='sheet'></div>");
  await page.evaluate(outputFiles[0]?.text ?? "");
  await page.evaluate(
    ([given, on]) => (window as unknown as { open: (f: unknown, l: number) => void }).open(given, on),
    [frames, layers] as const,
  );
  await page.waitForTimeout(300);
  const result = await timed(page, () => page.evaluate(() => (window as unknown as { play: () => unknown }).play()));
  await page.close();
  return result;
}
