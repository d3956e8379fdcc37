/** "If the power fails": every body's level against time on a stretched axis, events written at their moment. */
import type { PartId, PowerCut } from "../../hydraulics/index.ts";
import { formatLevel, formatTime } from "../sheet/units.ts";
import { atTime, type Drawing, nameById } from "./drawing.ts";
import { letters } from "./letters.ts";
import type { Place, Role, SceneNode } from "./node.ts";
import { cutText } from "./plainText.ts";
import { shownUntil, stripAxis, stripPlot } from "./stripAxis.ts";
import { textWidth } from "./textWidth.ts";

const ticks = [10, 60, 300, 1200, 3600, 6 * 3600, 24 * 3600] as const;
const mostBodies = 6;

export function drawStrip(drawing: Drawing): readonly SceneNode[] {
  const { strip } = drawing.layout;
  if (!strip) return [];
  const base = { part: null, space: "paper", layer: "frame" } as const;
  const nodes: SceneNode[] = [
    { ...base, key: "sheet strip", shape: "line", points: [[strip.x, strip.y], [strip.x + strip.width, strip.y], [strip.x + strip.width, strip.y + strip.height], [strip.x, strip.y + strip.height]], closed: true, stroke: "none", fill: "sheet", pen: "hair" },
    { ...base, key: "sheet strip rule", shape: "line", points: [[strip.x, strip.y], [strip.x + strip.width, strip.y]], stroke: "hair", pen: "part" },
    { ...base, key: "sheet strip name", shape: "text", at: [strip.x + 8, strip.y + 7.4], text: "If the power fails", anchor: "start", size: letters.name, weight: 600, fill: "ink" },
  ];
  const cut = drawing.powerCut;
  const title = textWidth("If the power fails", letters.name, 600);
  const note = (text: string): void => {
    nodes.push({ ...base, key: "sheet strip note", shape: "text", at: [strip.x + 8 + title + 4, strip.y + 7.4], text, anchor: "start", size: letters.small, weight: 400, fill: "soft" });
  };
  if (!cut || cut.history.times.length < 2 || cut.history.levels.size === 0) {
    note(drawing.running ? "no levels to follow" : "");
    return nodes;
  }
  if (!drawing.layout.narrow) note("levels after the pump stops");
  return [...nodes, ...plot(drawing, cut)];
}

function plot(drawing: Drawing, cut: PowerCut): readonly SceneNode[] {
  const strip = drawing.layout.strip as NonNullable<Drawing["layout"]["strip"]>;
  const area = stripPlot(strip);
  const axis = stripAxis(cut);
  const until = shownUntil(cut);
  const base = { part: null, space: "paper", layer: "frame" } as const;
  const nodes: SceneNode[] = [
    { ...base, key: "sheet strip plot", shape: "line", points: [[area.x, area.y], [area.x + area.width, area.y], [area.x + area.width, area.y + area.height], [area.x, area.y + area.height]], closed: true, stroke: "hair", pen: "dimension" },
  ];
  const xAt = (time: number): number => area.x + area.width * axis.shareAt(time);
  let lastWord = area.x + 4;
  nodes.push({ ...base, key: "sheet strip tick 0", shape: "text", at: [area.x, area.y + area.height + 4.2], text: "0", anchor: "middle", size: letters.small, weight: 400, fill: "soft" });
  for (const tick of ticks) {
    if (tick > until) break;
    const x = xAt(tick);
    nodes.push({ ...base, key: `sheet strip line ${tick}`, shape: "line", points: [[x, area.y], [x, area.y + area.height]], stroke: "hair", pen: "hair" });
    if (x - lastWord < 9) continue;
    nodes.push({ ...base, key: `sheet strip tick ${tick}`, shape: "text", at: [x, area.y + area.height + 4.2], text: formatTime(tick), anchor: "middle", size: letters.small, weight: 400, fill: "soft" });
    lastWord = x + 4;
  }

  // One scale of levels for all; the lines of bodies that stand close are told apart by their words.
  const bodies = [...cut.history.levels].slice(0, mostBodies);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const [, levels] of bodies) for (const level of levels) [low, high] = [Math.min(low, level), Math.max(high, level)];
  const span = Math.max(high - low, 0.05);
  const yAt = (level: number): number => area.y + area.height - 3 - ((area.height - 9) * (level - low)) / span;
  const words: number[] = [];
  for (const [id, levels] of bodies) {
    const points = curve(cut, levels, xAt, yAt, until);
    const vessel = cut.vessels.get(id);
    const tone: Role = vessel ? (vessel.verdict === "drains" ? "drains" : "waterline") : "ink";
    nodes.push({ ...base, part: id, key: `sheet strip level ${id}`, shape: "line", points, stroke: tone, pen: "part", join: "round" });
    const end = levels.at(-1) as number;
    const text = cutText(wordsFor(drawing, cut, id, levels), area.width * 0.5, { size: letters.small, weight: 500 });
    let y = yAt(end) - 1.3;
    // Two words may not stand on each other: the later one moves up, or under its line.
    if (words.some((other) => Math.abs(other - y) < 3.6)) y = yAt(end) + 3.4;
    if (words.some((other) => Math.abs(other - y) < 3.6)) y = Math.min(...words) - 3.8;
    y = Math.max(area.y + 6.6, Math.min(y, area.y + area.height - 0.8));
    words.push(y);
    nodes.push({ ...base, part: id, key: `sheet strip word ${id}`, shape: "text", at: [area.x + area.width - 1.5, y], text, anchor: "end", size: letters.small, weight: 500, fill: tone === "waterline" ? "held" : tone });
  }
  nodes.push(...events(cut, xAt, area));
  if (drawing.moment !== null) {
    const x = xAt(drawing.moment);
    nodes.push({ ...base, key: "sheet strip now", shape: "line", points: [[x, area.y], [x, area.y + area.height]], stroke: "ink", pen: "dimension" });
    nodes.push({ ...base, key: "sheet strip now time", shape: "text", at: [Math.min(x + 1.5, area.x + area.width - 14), area.y + area.height - 1.2], text: formatTime(drawing.moment), anchor: "start", size: letters.small, weight: 600, fill: "ink" });
  }
  const at = xAt(drawing.moment ?? 0);
  nodes.push({ ...base, key: "sheet strip handle", shape: "line", points: [[at - 1.3, area.y + area.height - 0.2], [at + 1.3, area.y + area.height - 0.2], [at + 1.3, area.y + area.height + 2.6], [at - 1.3, area.y + area.height + 2.6]], closed: true, stroke: "ink", fill: "ink", pen: "hair" });
  return nodes;
}

/** A level line at the plot's own resolution: the stretched axis bends straight pieces. */
function curve(cut: PowerCut, levels: readonly number[], xAt: (time: number) => number, yAt: (level: number) => number, until: number): readonly Place[] {
  const points: Place[] = [];
  for (let k = 0; k <= 120; k++) {
    const time = 5 * Math.expm1((k / 120) * Math.log1p(until / 5));
    points.push([xAt(time), yAt(atTime(cut.history.times, levels, time))]);
  }
  return points;
}

function wordsFor(drawing: Drawing, cut: PowerCut, id: PartId, levels: readonly number[]): string {
  const name = nameById(drawing.section, id);
  const { system } = drawing;
  const vessel = cut.vessels.get(id);
  const end = vessel?.finalLevel ?? cut.ponds.get(id)?.finalLevel ?? (levels.at(-1) as number);
  if (vessel) return vessel.verdict === "drains" ? `${name} drains to ${formatLevel(end, system)}` : `${name} comes to rest at ${formatLevel(end, system)}`;
  const pond = cut.ponds.get(id);
  if (pond?.overflows) return `${name} runs over its rim`;
  const rise = end - (levels[0] as number);
  return `${name}, ${rise < 0 ? "−" : "+"}${system === "metric" ? `${Math.abs(rise * 1000).toFixed(0)} mm` : `${Math.abs(rise / 0.0254).toFixed(1)} in`}`;
}

/** The few events that decide, written along the top where there is room. */
function events(cut: PowerCut, xAt: (time: number) => number, area: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }): readonly SceneNode[] {
  const base = { part: null, space: "paper", layer: "frame" } as const;
  const telling = cut.events.filter(({ code }) => code !== "pumpStops" && code !== "settled" && code !== "columnsFall" && code !== "returnStops");
  const nodes: SceneNode[] = [];
  let free = area.x;
  telling.slice(0, 12).forEach((event, i) => {
    const x = xAt(event.time);
    const tone: Role = event.code === "siphonBroken" || event.code === "checkValveShuts" ? "part" : event.code === "mouthUncovered" || event.code === "rimPassed" || event.code === "ventSpills" ? "drains" : "soft";
    nodes.push({ ...base, part: event.part, key: `sheet strip event ${i}`, shape: "line", points: [[x, area.y], [x, area.y + area.height]], stroke: tone, pen: "dimension", dash: [1, 0.8] });
    const room = area.x + area.width - Math.max(x, free) - 2;
    if (x < free - 0.5 || room < 24) return;
    const text = cutText(`${formatTime(event.time)}: ${event.text.replace(/\.$/, "")}`, Math.min(room, area.width * 0.62), { size: letters.small, weight: 400 });
    nodes.push({ ...base, part: event.part, key: `sheet strip event word ${i}`, shape: "text", at: [x + 1.2, area.y + 3.6], text, anchor: "start", size: letters.small, weight: 400, fill: tone });
    free = x + 1.2 + textWidth(text, letters.small, 400) + 3;
  });

  return nodes;
}
