/** How smoothly a vessel is dragged on sheets of 11 to 1,000 parts: the built page in a real Chromium while the mouse
 * moves it, beside bare konva that paints the same pictures. Headless and without a graphics card, so rather slower
 * than on a desk.
 *
 * `work`: the processor's time that the page's main thread took from one frame to the next, all of it: the mouse's
 * events, script, style, layout, canvases with their pixels, answers of workers, and a solve that runs on this thread.
 * What workers take is not in it. It is the one to compare on a machine that does other things too.
 * `step`: by the clock, from the start of a frame until its script, style, layout and paint calls are done.
 * `gap`: by the clock, from frame to frame, raster included; not under 16.7 ms at 60 Hz.
 * `figures`: of the frames, how many showed flows and levels of the very drawing under the hand, and how many frames
 * old the others' were. Bare konva solves nothing and is given its pictures ready.
 *
 * Each is timed in several pages in turn (`RUNS`, three unless told otherwise) and the median of each figure is printed,
 * with the lowest and the highest p95: a machine that others share stands still for milliseconds now and then, and its
 * clock of a thread's time goes on. Ratios within one run of this say more than its milliseconds. */
import { build as bundle } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { drag } from "../../editor/canvas/drag.ts";
import { type Grip, gripOn } from "../../editor/canvas/grip.ts";
import { partAt } from "../../editor/canvas/hit.ts";
import { type Px, projectionOf } from "../../editor/canvas/projection.ts";
import { snapStep } from "../../editor/canvas/snap.ts";
import { buildScene, type SceneInput } from "../../editor/scene/build.ts";
import { fitSection } from "../../editor/scene/layout.ts";
import type { SceneNode } from "../../editor/scene/node.ts";
import { palettes, penWidths } from "../../editor/scene/palette.ts";
import { sameNode } from "../../editor/scene/sameNode.ts";
import { cameraOf, mmOfPx, transformOfCamera } from "../../editor/sheet/transform.ts";
import type { Camera } from "../../editor/state/view.ts";
import {
  type Part,
  type PartId,
  type Running,
  type Section,
  solveRunning,
  writeSection,
} from "../../hydraulics/index.ts";
import { launchChromium } from "../support/chromium.ts";
import { served } from "../support/served.ts";
import type { Drawn, Frames } from "./bareKonva.ts";
import { sideBySide } from "./sideBySide.ts";

const sizes = (process.env.SIZES ?? "11,60,200,1000").split(",").map(Number);
const runs = Number(process.env.RUNS ?? "3");
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
      const hold = holdOn(section, dragged);
      const frames = framesOf(section, hold);
      const ours: Timed[] = [];
      const bares: Record<1 | 2, Timed[]> = { 1: [], 2: [] };
      for (let k = 0; k < runs; k++) {
        ours.push(await timeOurs(browser, page.address, section, hold.at));
        for (const layers of [1, 2] as const) bares[layers].push(await timeBare(browser, frames, layers));
      }
      const here = medianOf(ours);
      print(`drag, ${count} parts (a ${hold.kind}), here`, here);
      for (const layers of [1, 2] as const) {
        const bare = medianOf(bares[layers]);
        print(`drag, ${count} parts, bare konva, ${layers === 1 ? "one layer" : "what moves on its own layer"}`, bare);
        console.log(
          `${"".padEnd(58)} here / bare: work p50 ${(here.work[0] / bare.work[0]).toFixed(2)} p95 ${(here.work[1] / bare.work[1]).toFixed(2)} mean ${(here.work[2] / bare.work[2]).toFixed(2)}   step p50 ${(here.step[0] / bare.step[0]).toFixed(2)}`,
        );
      }
    }
  } finally {
    for (const end of ends.reverse()) await end();
  }
}

/** ms */
interface Timed {
  /** p50, p95, mean */
  readonly work: readonly [number, number, number];
  /** p50, p95 */
  readonly step: readonly [number, number];
  readonly gap: readonly [number, number];
  readonly frames: number;
  /** of each frame, how many moves its figures were behind; empty where nobody tells */
  readonly behind: readonly number[];
}

/** Several runs of the same, and how far their p95 of `work` lie apart. */
interface Runs extends Timed {
  readonly between: readonly [number, number];
}

function medianOf(all: readonly Timed[]): Runs {
  const of = (pick: (one: Timed) => number): number => quantile(all.map(pick), 0.5);
  const worst = all.map(({ work }) => work[1]);
  return {
    work: [of(({ work }) => work[0]), of(({ work }) => work[1]), of(({ work }) => work[2])],
    step: [of(({ step }) => step[0]), of(({ step }) => step[1])],
    gap: [of(({ gap }) => gap[0]), of(({ gap }) => gap[1])],
    frames: all.reduce((sum, { frames }) => sum + frames, 0),
    behind: all.flatMap(({ behind }) => behind),
    between: [Math.min(...worst), Math.max(...worst)],
  };
}

function print(name: string, { work, step, gap, frames, behind, between }: Runs): void {
  const ms = (value: number) => value.toFixed(1).padStart(6);
  const exact = behind.filter((moves) => moves === 0).length;
  const told =
    behind.length === 0
      ? ""
      : `   figures exact in ${exact} of ${behind.length}, behind by p50 ${quantile(behind, 0.5)} p95 ${quantile(behind, 0.95)} frames`;
  console.log(
    `${name.padEnd(58)} work p50 ${ms(work[0])} p95 ${ms(work[1])} (${between.map((one) => one.toFixed(1)).join(" to ")}) mean ${ms(work[2])}   step p50 ${ms(step[0])} p95 ${ms(step[1])}   gap p50 ${ms(gap[0])} p95 ${ms(gap[1])}   ${frames} frames${told}`,
  );
}

const quantile = (list: readonly number[], share: number): number =>
  [...list].sort((a, b) => a - b)[Math.floor(share * (list.length - 1))] ?? Number.NaN;

const moves = 120;
/** px off the place of the press, at each move */
const way = (k: number): readonly [number, number] => [40 * Math.sin(k / 10), -14 * Math.sin(k / 7)];

/** Of every frame in which something moved, how long its work took and how long after the one before it came. */
function probe(): void {
  const seen = { step: [] as number[], gap: [] as number[], behind: [] as number[], moved: false };
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
      // Carries the thread's own clock into the trace: from one to the next is the work of a frame.
      performance.mark("frame");
      seen.gap.push(now - start);
      // The page says it of its last frame.
      const behind = document.querySelector("[data-behind]")?.getAttribute("data-behind");
      if (behind) seen.behind.push(Number(behind));
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
  await page.evaluate(() => {
    const { seen } = window as unknown as { seen: Seen };
    for (const list of [seen.step, seen.gap, seen.behind]) list.length = 0;
  });
  const marks = await markTimes(page, work);
  const { step, gap, behind } = await page.evaluate(() => (window as unknown as { seen: Seen }).seen);
  const took = marks.slice(1).map((time, k) => time - (marks[k] as number));
  if (took.length < moves / 2) throw new Error(`only ${took.length} frames were traced`);
  return {
    work: [quantile(took, 0.5), quantile(took, 0.95), took.reduce((sum, time) => sum + time, 0) / took.length],
    step: [quantile(step, 0.5), quantile(step, 0.95)],
    gap: [quantile(gap, 0.5), quantile(gap, 0.95)],
    frames: gap.length,
    behind,
  };
}

interface Seen {
  readonly step: number[];
  readonly gap: number[];
  readonly behind: number[];
}

/** ms of the main thread's processor time at each mark "frame" that the work leaves. */
async function markTimes(page: Page, work: () => Promise<unknown>): Promise<readonly number[]> {
  const browser = page.context().browser();
  if (!browser) throw new Error("the page has no browser");
  await browser.startTracing(page, { categories: ["-*", "blink.user_timing"] });
  await work();
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString("utf8")) as {
    readonly traceEvents: readonly { readonly name: string; readonly tts?: number }[];
  };
  return traceEvents.flatMap(({ name, tts }) => (name === "frame" && tts !== undefined ? [tts / 1000] : []));
}

const cameraFor = (section: Section) =>
  cameraOf(fitSection(section, { width: mmOfPx(size.width), height: mmOfPx(size.height) }, { headroom }));

async function timeOurs(browser: Browser, address: string, section: Section, [x, y]: Px): Promise<Timed> {
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

interface Hold {
  readonly part: PartId;
  readonly kind: Part["kind"];
  readonly grip: Grip;
  readonly at: Px;
}

/** What a press on the vessel's stones takes hold of: the vessel, but what lies over it on a picture so small that all
 * of it is within the reach of a pipe or a valve. */
function holdOn(section: Section, dragged: PartId): Hold {
  const body = section.parts.get(dragged);
  if (body?.kind !== "vessel") throw new Error("no vessel to drag");
  const camera = cameraFor(section);
  const projection = projectionOf(camera);
  const site = [body.x + 0.5, body.baseLevel + 0.32] as const;
  const at = projection.px("site", site);
  const { running } = solveRunning(section, { quick: true });
  const part = partAt(buildScene(inputOf(section, running, camera)), projection, at, 5) ?? dragged;
  return { part, kind: section.parts.get(part)?.kind ?? "vessel", grip: gripOn(section, part, site), at };
}

const picture = async (page: Page): Promise<string> => (await page.screenshot()).toString("base64");

const inputOf = (section: Section, running: Running, camera: Camera): SceneInput => ({
  section,
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
});

/** The pictures of the same drag as lists of nodes: the first whole, the others as what differs from it. */
function framesOf(section: Section, { at, part, grip }: Hold): Frames {
  const camera = cameraFor(section);
  const projection = projectionOf(camera);
  let from: ReturnType<typeof solveRunning>["state"] | undefined;
  const nodesOf = (shown: Section): readonly SceneNode[] => {
    const { running, state } = solveRunning(shown, from ? { quick: true, from } : { quick: true });
    from = running.converged ? state : undefined;
    return buildScene(inputOf(shown, running, camera));
  };
  const base = nodesOf(section);
  const known = new Map(base.map((node) => [node.key, node]));
  const changes: Drawn[][] = [];
  for (let k = 0; k < 24; k++) {
    const [dx, dy] = way(k * 5);
    const { changed: moved } = drag(
      { section, grip, selection: new Set([part]), at: projection.site(at) },
      {
        at: projection.site([at[0] + dx, at[1] + dy]),
        grid: { step: snapStep(camera.scale, "metric"), reach: 7 / camera.scale },
        reach: 9 / camera.scale,
        loose: false,
      },
    );
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
