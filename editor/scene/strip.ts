/** The strip "If the power fails": the level of every body against time on a stretched axis, with what happens
 * written at its moment, and a handle at the moment shown. Another run (a start, a fault) may be played on it. */
import type { CutEvent, CutHistory } from "../../hydraulics/index.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatTime } from "../sheet/units.ts";
import type { Drawing } from "./drawing.ts";
import { box, stroke, words } from "./ink.ts";
import type { SheetLayout } from "./layout.ts";
import { letters } from "./letters.ts";
import type { Role, SceneNode } from "./node.ts";
import { Obstacles } from "./obstacles.ts";
import { cutText, plainText } from "./plainText.ts";
import type { PlayedRun } from "./played.ts";
import { type Curve, curveNodes, endWords, levelled, thinned } from "./stripCurves.ts";
import { stripEvents } from "./stripEvents.ts";
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

/** Whether a run has anything to show: curves as flat as the axis under them say nothing. */
export const isMoving = ({ history, events }: Pick<PlayedRun, "history" | "events">): boolean =>
  history.times.length > 1 &&
  (events.some(isTold) ||
    [...history.levels.values()].some((levels) => Math.max(...levels) - Math.min(...levels) > still));

const isTold = ({ code }: CutEvent): boolean => code !== "pumpStops" && code !== "settled";

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
  if (!played || !isMoving(played))
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
  const told = run.events.filter(isTold).slice(0, mostEvents);
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
    ...stripEvents(drawing, told, area, x, obstacles),
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
