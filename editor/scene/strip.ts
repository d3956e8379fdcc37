/** The strip "If the power fails": the level of every body against time on a stretched axis, with what happens
 * written at its moment, and a handle at the moment shown. */
import type { CutEvent, PartId, PowerCut } from "../../hydraulics/index.ts";
import { sentenceIn } from "../sheet/sentence.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatLevel, formatTime } from "../sheet/units.ts";
import { type Drawing, nameById } from "./drawing.ts";
import { box, stroke, words } from "./ink.ts";
import { letters } from "./letters.ts";
import type { Role, SceneNode } from "./node.ts";
import { type Mm, Obstacles } from "./obstacles.ts";
import { cutText, plainText } from "./plainText.ts";
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

/** The time at the right end: what matters is over long before the last tenth of a millimetre has run off. */
export function shownUntil(cut: Pick<PowerCut, "duration" | "history">): number {
  const { times, levels } = cut.history;
  let until = 60;
  for (const series of levels.values()) {
    const end = series.at(-1) as number;
    let last = series.length - 1;
    while (last > 0 && Math.abs((series[last] as number) - end) <= still) last--;
    until = Math.max(until, times[Math.min(last + 1, times.length - 1)] ?? 0);
  }
  return Math.min(until * 1.3, Math.max(cut.duration, 60));
}

/** Time on the axis as a share of its length. Seconds at first, hours in the end: x = ln(1 + t/5 s). */
export function stripAxis(cut: Pick<PowerCut, "duration" | "history">): {
  shareAt(time: number): number;
  timeAt(share: number): number;
} {
  const whole = Math.log1p(shownUntil(cut) / 5);
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
    words("sheet strip title", [left, strip.y + 7], "If the power fails", { size: letters.name, weight: 600 }),
  ];
  const cut = drawing.powerCut;
  const after = left + textWidth("If the power fails", letters.name, 600) + 4;
  // Words beside the title only where they are whole; a window has its buttons at the right end.
  const say = (text: string): readonly SceneNode[] =>
    after + textWidth(text, letters.note, 400) >
    strip.x + strip.width - (drawing.input.view.isoMargins === undefined ? 72 : 4)
      ? []
      : [words("sheet strip words", [after, strip.y + 7], text, { size: letters.note, fill: "soft" })];
  if (!cut || cut.history.times.length < 2 || cut.history.levels.size === 0)
    return [
      ...head,
      ...say(cut ? "nothing moves" : drawing.running ? "nothing to show yet" : "no answer, so nothing to show"),
    ];
  return [...head, ...say("levels after the pump stops"), ...plot(drawing, cut, stripPlot(strip))];
}

function plot(drawing: Drawing, cut: PowerCut, area: Rect): readonly SceneNode[] {
  const axis = stripAxis(cut);
  const x = (time: number): number => area.x + area.width * axis.shareAt(time);
  const bodies = [...cut.history.levels].slice(0, mostBodies);
  const all = bodies.flatMap(([, levels]) => levels);
  const low = Math.min(...all);
  const high = Math.max(...all);
  const span = Math.max(high - low, 0.02);
  const y = (level: number): number => area.y + area.height - 3.5 - ((level - low) / span) * (area.height - 11);
  const obstacles = new Obstacles({ x: area.x, y: area.y, width: area.width, height: area.height });
  const curves = bodies.map(([id, levels]) => curveOf(cut, levels, id, x, y));
  for (const { points } of curves) obstacles.addLine(points, 0.3);
  const told = cut.events.filter(({ code }) => code !== "pumpStops" && code !== "settled").slice(0, mostEvents);
  for (const at of told.map((event) => x(event.time))) {
    obstacles.addLine(
      [
        [at, area.y],
        [at, area.y + area.height],
      ],
      0.1,
    );
  }
  return [
    box("sheet strip plot", area, { pen: "hair", stroke: "hair", fill: "none" }),
    ...timeTicks(cut, area, x),
    ...curves.flatMap(({ id, points }) => curveNodes(cut, id, points)),
    ...endWords(drawing, cut, curves, area, obstacles),
    ...events(drawing, told, area, x, obstacles),
    ...handle(drawing, area, x),
  ];
}

function timeTicks(cut: PowerCut, area: Rect, x: (time: number) => number): readonly SceneNode[] {
  const floor = area.y + area.height;
  let free = Number.NEGATIVE_INFINITY;
  const until = shownUntil(cut);
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

/** Thinned to what can be seen: a point every half millimetre, and every extreme between. */
function curveOf(
  cut: PowerCut,
  levels: readonly number[],
  id: PartId,
  x: (time: number) => number,
  y: (level: number) => number,
): Curve {
  const points: Mm[] = [];
  let last: Mm | null = null;
  cut.history.times.forEach((time, i) => {
    const at: Mm = [x(time), y(levels[i] as number)];
    const end = i === cut.history.times.length - 1;
    if (last && !end && Math.abs(at[0] - last[0]) < 0.5 && Math.abs(at[1] - last[1]) < 0.3) return;
    points.push(at);
    last = at;
  });
  return { id, points };
}

const roleOf = (cut: PowerCut, id: PartId): Role =>
  cut.vessels.get(id)?.verdict === "drains" ? "drains" : cut.vessels.has(id) ? "waterline" : "ink";

const curveNodes = (cut: PowerCut, id: PartId, points: readonly Mm[]): readonly SceneNode[] => [
  {
    key: `sheet strip curve ${id}`,
    part: null,
    space: "paper",
    layer: "frame",
    shape: "line",
    points,
    stroke: roleOf(cut, id),
    pen: "part",
    join: "round",
  },
];

/** Who it is and where it ends, at the right end over or under its curve. */
function endWords(
  drawing: Drawing,
  cut: PowerCut,
  curves: readonly Curve[],
  area: Rect,
  obstacles: Obstacles,
): readonly SceneNode[] {
  return curves.flatMap(({ id, points }): readonly SceneNode[] => {
    const end = points.at(-1) as Mm;
    const style = { size: letters.small, weight: 500 } as const;
    const text = cutText(endText(drawing, cut, id), area.width * 0.6, style);
    const width = textWidth(text, style.size, style.weight);
    const fill = roleOf(cut, id);
    for (const right of [2, 6, 12, 18, 25, 33, 42, 52, 63].map((back) => end[0] - back)) {
      // The curve may slope under its words: they keep off its highest or lowest place there.
      const near = points.filter(([px]) => px > right - width - 2 && px < right + 2).map(([, py]) => py);
      near.push(end[1]);
      for (const top of [Math.min(...near) - 3.6, Math.max(...near) + 0.9]) {
        const place = { x: right - width, y: top, width, height: 2.9 };
        if (!obstacles.isFree(place)) continue;
        obstacles.addRect(place);
        return [words(`sheet strip name ${id}`, [right, top + 2.3], text, { ...style, fill, anchor: "end" })];
      }
    }
    return [];
  });
}

function endText(drawing: Drawing, cut: PowerCut, id: PartId): string {
  const name = nameById(drawing.section, id);
  const vessel = cut.vessels.get(id);
  if (vessel?.verdict === "drains") return `${name} drains, to ${formatLevel(vessel.finalLevel, drawing.system)}`;
  if (vessel) return `${name} comes to rest at ${formatLevel(vessel.finalLevel, drawing.system)}`;
  const pond = cut.ponds.get(id);
  if (!pond) return name;
  return `${name} ${pond.overflows ? "overflows, " : ""}ends at ${formatLevel(pond.finalLevel, drawing.system)}`;
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
  const nodes: SceneNode[] = [];
  told.forEach((event, i) => {
    const at = x(event.time);
    const text = cutText(
      `${formatTime(event.time)}: ${sentenceIn(plainText(event.text), drawing.system)}`,
      area.width * 0.62,
      style,
    );
    const width = textWidth(text, style.size, style.weight);
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
    for (let row = 0; row < Math.floor(area.height / 3.7); row++) {
      const top = area.y + 0.8 + row * 3.7;
      const right = at + 1.2 + width < area.x + area.width;
      const left = right ? at + 1.2 : at - 1.2 - width;
      const place = { x: left, y: top, width, height: 3.1 };
      if (!obstacles.isFree(place)) continue;
      obstacles.addRect(place);
      nodes.push(
        words(`sheet strip event words ${i}`, [right ? at + 1.2 : at - 1.2, top + 2.4], text, {
          ...style,
          fill: "part",
          anchor: right ? "start" : "end",
        }),
      );
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
