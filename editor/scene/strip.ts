/** The strip "If the power fails": the level of every body against time on a stretched axis, with what happens
 * written at its moment, and a handle at the moment shown. Another run (a start, a fault) may be played on it. */
import type { CutEvent, CutHistory, PartId } from "../../hydraulics/index.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatLevel, formatTime } from "../sheet/units.ts";
import { type Drawing, nameById } from "./drawing.ts";
import { box, stroke, words } from "./ink.ts";
import type { SheetLayout } from "./layout.ts";
import { letters } from "./letters.ts";
import type { Role, SceneNode } from "./node.ts";
import { type Mm, Obstacles } from "./obstacles.ts";
import { cutText, plainText, wrapText } from "./plainText.ts";
import type { PlayedRun } from "./played.ts";
import { textWidth } from "./textWidth.ts";

/** Where the curves are. */
export const stripPlot = (strip: Rect): Rect => ({
  x: strip.x + 8,
  y: strip.y + 12,
  width: strip.width - 16,
  height: strip.height - 20,
});

/** m of level that can still be told from rest on the strip */
const still = 2e-4;

interface Timed {
  readonly duration: number;
  readonly history: CutHistory;
}

/** The time at the right end: what matters is over long before the last tenth of a millimetre has run off. */
export function shownUntil(run: Timed): number {
  const { times, levels } = run.history;
  let until = 60;
  for (const series of levels.values()) {
    const end = series.at(-1) as number;
    let last = series.length - 1;
    while (last > 0 && Math.abs((series[last] as number) - end) <= still) last--;
    until = Math.max(until, times[Math.min(last + 1, times.length - 1)] ?? 0);
  }
  return Math.min(until * 1.3, Math.max(run.duration, 60));
}

/** Time on the axis as a share of its length. Seconds at first, hours in the end: x = ln(1 + t/5 s). */
export function stripAxis(run: Timed): {
  shareAt(time: number): number;
  timeAt(share: number): number;
} {
  const whole = Math.log1p(shownUntil(run) / 5);
  return {
    shareAt: (time) => Math.min(1, Math.log1p(Math.max(time, 0) / 5) / whole),
    timeAt: (share) => 5 * Math.expm1(share * whole),
  };
}

const ticks = [0, 10, 60, 300, 1200, 3600, 6 * 3600, 24 * 3600, 48 * 3600];
const mostBodies = 12;
const mostEvents = 30;

export function drawStrip(drawing: Drawing): readonly SceneNode[] {
  const { strip } = drawing.layout;
  if (!strip) return [];
  const left = strip.x + 8;
  const { played } = drawing;
  const onScreen = drawing.input.view.isoMargins === undefined;
  const sought = drawing.input.played === null;
  const title = stripTitle(drawing.layout, played, onScreen);
  const head: SceneNode[] = [
    box("sheet strip ground", strip, { pen: "hair", stroke: "none", fill: "sheet" }),
    stroke(
      "sheet strip line",
      [
        [strip.x, strip.y],
        [strip.x + strip.width, strip.y],
      ],
      "dimension",
      "hair",
    ),
    words("sheet strip title", [left, strip.y + 7], title, titleStyle),
  ];
  const after = left + textWidth(title, titleStyle.size, titleStyle.weight) + 4 + (onScreen ? mark : 0);
  // Words beside the title only where they are whole; a window has its buttons at the right end.
  const room = strip.x + strip.width - (onScreen ? buttons : 4) - after;
  const say = (text: string, fill: Role = "soft"): readonly SceneNode[] =>
    textWidth(text, letters.note, 400) > room
      ? []
      : [words("sheet strip words", [after, strip.y + 7], text, { size: letters.note, fill })];
  if (!played || played.history.times.length < 2 || played.history.levels.size === 0)
    return [
      ...head,
      ...say(
        played
          ? "nothing moves"
          : sought
            ? "being tried"
            : drawing.running
              ? "nothing to show yet"
              : "no answer, so nothing to show",
      ),
    ];
  const says = plainText(sentencesOf(drawing.section, drawing.system)(played.says));
  // Of an outcome and why, the outcome alone where both do not fit.
  const [outcome = says] = says.split(". ");
  const said = say(says, played.saysIn);
  return [
    ...head,
    ...(said.length > 0 ? said : say(outcome, played.saysIn)),
    ...plot(drawing, played, stripPlot(strip)),
  ];
}

const titleStyle = { size: letters.name, weight: 600 } as const;
/** mm at the right end of a window's strip that its buttons take */
const buttons = 72;
const narrowButtons = 34;

/** beside a window's title, for the mark that says that another run can be chosen */
const mark = 5;

/** What is played, cut where it is long. */
export function stripTitle({ strip, narrow }: SheetLayout, played: PlayedRun | null, onScreen: boolean): string {
  const room = (strip?.width ?? 0) - 16 - (onScreen ? (narrow ? narrowButtons : buttons) + mark : 0);
  const title = (narrow ? played?.short : undefined) ?? played?.title ?? "If the power fails";
  return cutText(plainText(title), Math.max(room, 20), titleStyle);
}

/** Where it stands. */
export const stripTitleBox = (strip: Rect, title: string): Rect => ({
  x: strip.x + 8,
  y: strip.y + 2.6,
  width: textWidth(title, titleStyle.size, titleStyle.weight),
  height: 6,
});

function plot(drawing: Drawing, run: PlayedRun, area: Rect): readonly SceneNode[] {
  const axis = stripAxis(run);
  const x = (time: number): number => area.x + area.width * axis.shareAt(time);
  const bodies = [...run.history.levels].slice(0, mostBodies);
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [, levels] of bodies)
    for (const level of levels) {
      low = Math.min(low, level);
      high = Math.max(high, level);
    }
  const span = Math.max(high - low, 0.02);
  // Over the highest curve there is room for its name and for a line of an event, narrow for two.
  const over = drawing.layout.narrow ? 12.2 : 7.5;
  const y = (level: number): number => area.y + area.height - 3.5 - ((level - low) / span) * (area.height - 3.5 - over);
  const obstacles = new Obstacles({ x: area.x, y: area.y, width: area.width, height: area.height });
  const xs = run.history.times.map(x);
  const curves = bodies.map(([id, levels]): Curve => ({ id, points: thinned(xs, levels, y) }));
  for (const { points } of curves) obstacles.addLine(levelled(points), 0.3);
  const told = run.events.filter(({ code }) => code !== "pumpStops" && code !== "settled").slice(0, mostEvents);
  for (const at of told.map((event) => x(event.time))) {
    obstacles.addLine(
      [
        [at, area.y],
        [at, area.y + area.height],
      ],
      // words that end on another moment's line read as that moment's
      0.4,
    );
  }
  return [
    box("sheet strip plot", area, { pen: "hair", stroke: "hair", fill: "none" }),
    ...timeTicks(run, area, x),
    ...curves.flatMap(({ id, points }) => curveNodes(run, id, points)),
    ...endWords(drawing, run, curves, area, obstacles),
    ...events(drawing, told, area, x, obstacles),
    ...handle(drawing, area, x),
  ];
}

function timeTicks(run: PlayedRun, area: Rect, x: (time: number) => number): readonly SceneNode[] {
  const floor = area.y + area.height;
  let free = Number.NEGATIVE_INFINITY;
  const until = shownUntil(run);
  const shown = ticks.filter((tick) => tick < until * 0.97);
  return [...shown, until].flatMap((time, i, times): readonly SceneNode[] => {
    const at = x(time);
    const text = time === 0 ? "0" : formatTime(time);
    const last = i === times.length - 1;
    const half = textWidth(text, letters.small, 400) / 2;
    if (!last && (at - half < free || at + half > x(until) - textWidth(formatTime(until), letters.small, 400) - 2))
      return [];
    free = at + half + 3;
    const anchor = last ? "end" : time === 0 ? "start" : "middle";
    const nodes = [
      words(`sheet strip time ${i}`, [at, floor + 4.2], text, { size: letters.small, fill: "soft", anchor }),
    ];
    if (!last && time > 0)
      nodes.push(
        stroke(
          `sheet strip tick ${i}`,
          [
            [at, area.y],
            [at, floor],
          ],
          "hair",
          "hair",
        ),
      );
    return nodes;
  });
}

interface Curve {
  readonly id: PartId;
  readonly points: readonly Mm[];
}

/** To what can be seen: a point every half millimetre, and every extreme between. */
function thinned(xs: readonly number[], levels: readonly number[], y: (level: number) => number): readonly Mm[] {
  const points: Mm[] = [];
  let [lastX, lastY] = [Number.NEGATIVE_INFINITY, 0];
  for (let i = 0; i < xs.length; i++) {
    const [atX, atY] = [xs[i] as number, y(levels[i] as number)];
    if (i < xs.length - 1 && Math.abs(atX - lastX) < 0.5 && Math.abs(atY - lastY) < 0.3) continue;
    points.push([atX, atY]);
    [lastX, lastY] = [atX, atY];
  }
  return points;
}

/** As few points as words need to keep off a curve: one that hardly rises or falls is a single line. */
function levelled(points: readonly Mm[]): readonly Mm[] {
  const kept: Mm[] = [];
  for (const [i, point] of points.entries()) {
    const next = points[i + 1];
    const start = kept.at(-1);
    if (!start || !next || Math.abs(next[1] - start[1]) > 0.02) kept.push(point);
  }
  return kept;
}

const roleOf = (run: PlayedRun, id: PartId): Role => run.ends.get(id)?.curve ?? "ink";

const curveNodes = (run: PlayedRun, id: PartId, points: readonly Mm[]): readonly SceneNode[] => [
  {
    key: `sheet strip curve ${id}`,
    part: null,
    space: "paper",
    layer: "frame",
    shape: "line",
    points,
    stroke: roleOf(run, id),
    pen: "part",
    join: "round",
  },
];

/** Who it is and where it ends, at the right end over or under its curve. */
function endWords(
  drawing: Drawing,
  run: PlayedRun,
  curves: readonly Curve[],
  area: Rect,
  obstacles: Obstacles,
): readonly SceneNode[] {
  return curves.flatMap(({ id, points }): readonly SceneNode[] => {
    const end = points.at(-1) as Mm;
    const style = { size: letters.small, weight: 500 } as const;
    const text = cutText(endText(drawing, run, id), area.width * 0.6, style);
    const width = textWidth(text, style.size, style.weight);
    const fill = roleOf(run, id);
    for (const right of [2, 6, 12, 18, 25, 33, 42, 52, 63].map((back) => end[0] - back)) {
      // The curve may slope under its words: they keep off its highest or lowest place there.
      const [highest, lowest] = reachBetween(points, right - width - 2, right + 2);
      for (const top of [highest - 3.6, lowest + 0.9]) {
        const place = { x: right - width, y: top, width, height: 2.9 };
        if (!obstacles.isFree(place)) continue;
        obstacles.addRect(place);
        return [words(`sheet strip name ${id}`, [right, top + 2.3], text, { ...style, fill, anchor: "end" })];
      }
    }
    return [];
  });
}

/** The highest and the lowest of a curve between two places, and where it ends. */
function reachBetween(points: readonly Mm[], left: number, right: number): readonly [number, number] {
  const [, end] = points.at(-1) as Mm;
  let [highest, lowest] = [end, end];
  // Curves go from left to right.
  for (let i = points.length - 1; i >= 0; i--) {
    const [x, y] = points[i] as Mm;
    if (x <= left) break;
    if (x >= right) continue;
    highest = Math.min(highest, y);
    lowest = Math.max(lowest, y);
  }
  return [highest, lowest];
}

function endText(drawing: Drawing, run: PlayedRun, id: PartId): string {
  const name = nameById(drawing.section, id);
  const end = run.ends.get(id);
  return end ? `${name} ${end.word} ${formatLevel(end.level, drawing.system)}` : name;
}

/** Dashed lines; the words beside them where they are free, the first events first. */
function events(
  drawing: Drawing,
  told: readonly CutEvent[],
  area: Rect,
  x: (time: number) => number,
  obstacles: Obstacles,
): readonly SceneNode[] {
  const style = { size: letters.small, weight: 400 } as const;
  const says = sentencesOf(drawing.section, drawing.system);
  const nodes: SceneNode[] = [];
  const row = 3.7;
  const freePlace = (lines: readonly string[], at: number): { readonly box: Rect; readonly right: boolean } | null => {
    const width = Math.max(...lines.map((line) => textWidth(line, style.size, style.weight)));
    const height = 3.1 + row * (lines.length - 1);
    const right = at + 1.2 + width < area.x + area.width;
    for (let y = area.y + 0.8; y + height <= area.y + area.height; y += row) {
      const box = { x: right ? at + 1.2 : at - 1.2 - width, y, width, height };
      if (obstacles.isFree(box)) return { box, right };
    }
    return null;
  };
  told.forEach((event, i) => {
    const at = x(event.time);
    const whole = `${formatTime(event.time)}: ${plainText(says(event.text))}`;
    nodes.push(
      stroke(
        `sheet strip event ${i}`,
        [
          [at, area.y],
          [at, area.y + area.height],
        ],
        "hair",
        "part",
        { dash: [1, 0.9] },
      ),
    );
    // Whole on a line, whole on two, else cut.
    const most = area.width * 0.62;
    const ways = [
      wrapText(whole, area.width * 0.95, style, 1),
      wrapText(whole, most, style, 2),
      [cutText(whole, most, style)],
    ];
    for (const lines of ways.filter((way, k) => k === 2 || !way.some((line) => line.endsWith("…")))) {
      const place = freePlace(lines, at);
      if (!place) continue;
      obstacles.addRect(place.box);
      lines.forEach((line, k) => {
        nodes.push(
          words(
            `sheet strip event words ${i}${k === 0 ? "" : `.${k}`}`,
            [place.right ? at + 1.2 : at - 1.2, place.box.y + 2.4 + k * row],
            line,
            {
              ...style,
              fill: "part",
              anchor: place.right ? "start" : "end",
            },
          ),
        );
      });
      break;
    }
  });
  return drawing.layout.narrow ? nodes.slice(0, 8) : nodes;
}

function handle(drawing: Drawing, area: Rect, x: (time: number) => number): readonly SceneNode[] {
  const at = x(drawing.moment ?? 0);
  const floor = area.y + area.height;
  // Paper has nothing to drag: a moment is a line on it.
  const nodes: SceneNode[] =
    drawing.input.view.isoMargins !== undefined
      ? []
      : [
          {
            key: "sheet strip handle",
            part: null,
            space: "paper",
            layer: "frame",
            shape: "path",
            at: [at, floor],
            data: "M-1.1 -1.4H1.1V0.9L0 2L-1.1 0.9Z",
            stroke: "sheet",
            fill: "ink",
            pen: "hair",
          },
        ];
  if (drawing.moment === null) return nodes;
  return [
    stroke(
      "sheet strip moment",
      [
        [at, area.y],
        [at, floor],
      ],
      "dimension",
      "ink",
    ),
    ...nodes,
    ...momentDots(drawing, area, at),
  ];
}

/** The moment in words over the handle's line. */
function momentDots(drawing: Drawing, area: Rect, at: number): readonly SceneNode[] {
  const text = formatTime(drawing.moment ?? 0);
  const anchor = at > area.x + area.width - 12 ? "end" : at < area.x + 8 ? "start" : "middle";
  return [words("sheet strip now", [at, area.y - 1.2], text, { size: letters.small, weight: 600, anchor })];
}
