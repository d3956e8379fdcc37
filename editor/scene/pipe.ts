/** A pipe: its true bore between two ink lines once that is wide enough to see, else a single line; the water in
 * it, arrows that say which way it runs, and its figures. */
import { lineLength, type Pipe, type Point, pipeLine, placeAt, sizeSeries, valveRole } from "../../hydraulics/index.ts";
import { formatBore, formatFlow, formatHead, formatLength, formatLevel, formatVelocity } from "../sheet/units.ts";
import { type Drawing, flowOf, metresOf, mmOf, nameOf, paperAt } from "./drawing.ts";
import { matterOf, ownerOf } from "./inFault.ts";
import { lineWidth } from "./labelBox.ts";
import type { LabelLine, LabelRequest } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import { turnAt } from "./lines.ts";
import type { SceneNode } from "./node.ts";
import { numberOf } from "./numbers.ts";
import type { PartDrawing } from "./part.ts";
import { spotsAlong } from "./pipeSpots.ts";
import { noFlow, waterRuns } from "./pipeWater.ts";
import { plainText } from "./plainText.ts";
import { chevron } from "./symbols.ts";

/** mm of paper from which the bore is drawn: 4 px */
const trueFrom = 1.06;
/** mm */
const wall = 0.36;
const arrowsApart = 15;
/** m/s; slower than this is written without its velocity */
const leastVelocity = 0.005;

export const isTrueBore = (drawing: Drawing, bore: number): boolean => mmOf(drawing, bore) > trueFrom;

/** Half its drawn width, mm. */
export const halfWidth = (drawing: Drawing, bore: number): number =>
  isTrueBore(drawing, bore) ? mmOf(drawing, bore) / 2 + wall : 0.4;

/** The walls, then what is in it. Pipes that tee into each other are painted walls first, so that the joint is open. */
export function pipeWalls(drawing: Drawing, pipe: Pipe): readonly SceneNode[] {
  const points = pipeLine(drawing.section, pipe);
  const base = { part: pipe.id, space: "site", layer: "pipes", shape: "line", join: "round", cap: "butt" } as const;
  if (!isTrueBore(drawing, pipe.bore))
    return [{ ...base, key: `${pipe.id} walls`, points, stroke: "ink", pen: "pipe" }];
  return [
    {
      ...base,
      key: `${pipe.id} walls`,
      points,
      stroke: "ink",
      pen: "pipe",
      siteWidth: pipe.bore + metresOf(drawing, 2 * wall),
    },
  ];
}

export function pipeContent(drawing: Drawing, pipe: Pipe): readonly SceneNode[] {
  const points = pipeLine(drawing.section, pipe);
  const nodes: SceneNode[] = [];
  if (isTrueBore(drawing, pipe.bore)) {
    const base = {
      part: pipe.id,
      space: "site",
      layer: "pipes",
      shape: "line",
      join: "round",
      cap: "butt",
      pen: "hair",
      siteWidth: pipe.bore,
    } as const;
    nodes.push({ ...base, key: `${pipe.id} air`, points: lengthened(drawing, points), stroke: "sheet" });
    waterRuns(drawing, pipe).forEach((run, i) => {
      nodes.push({
        ...base,
        key: `${pipe.id} water ${i}`,
        points: run.length === points.length ? lengthened(drawing, run) : run,
        stroke: "water",
      });
    });
  }
  return [...nodes, ...arrows(drawing, pipe, points)];
}

/** A hair past both ends, so that no wall's colour shows across the open end. */
function lengthened(drawing: Drawing, points: readonly Point[]): readonly Point[] {
  const by = metresOf(drawing, 0.02);
  const stretch = (end: Point, next: Point): Point => {
    const length = Math.hypot(end[0] - next[0], end[1] - next[1]);
    return length === 0
      ? end
      : [end[0] + ((end[0] - next[0]) / length) * by, end[1] + ((end[1] - next[1]) / length) * by];
  };
  return [
    stretch(points[0] as Point, points[1] as Point),
    ...points.slice(1, -1),
    stretch(points.at(-1) as Point, points.at(-2) as Point),
  ];
}

/** Chevrons along the pipe, moved on by the clock at the water's speed. */
function arrows(drawing: Drawing, pipe: Pipe, points: readonly Point[]): readonly SceneNode[] {
  const flow = flowOf(drawing, pipe.id);
  if (flow === null || Math.abs(flow) < noFlow) return [];
  const length = lineLength(points);
  const step = metresOf(drawing, arrowsApart);
  const count = Math.min(Math.max(1, Math.floor(length / step)), 60);
  const apart = length / count;
  const speed = flow / ((Math.PI * pipe.bore ** 2) / 4);
  const moved = (speed * (drawing.input.view.clock ?? 0)) / apart;
  const nodes: SceneNode[] = [];
  for (let i = 0; i < count; i++) {
    const share = i + 0.5 + moved;
    const at = (share - Math.floor(share / count) * count) * apart;
    nodes.push({
      key: `${pipe.id} arrow ${i}`,
      part: pipe.id,
      space: "site",
      layer: "pipes",
      shape: "path",
      at: placeAt(points, at),
      data: chevron,
      turn: turnAt(points, at) + (flow < 0 ? 180 : 0),
      stroke: isTrueBore(drawing, pipe.bore) ? "waterline" : "ink",
      pen: "dimension",
      scale: Math.min(1, Math.max(0.55, mmOf(drawing, pipe.bore) / 2.2)),
    });
  }
  return nodes;
}

const materialWords = {
  pvc: "PVC-U",
  pe: "PE",
  hose: "hose",
  corrugated: "corrugated",
  copper: "copper",
  galvanised: "galvanised",
} as const;

/** `PVC-U metric, SDR 21 (PN 10), 32` or `32, PVC-U metric, SDR 21 (PN 10)` → `32 mm`: the series is in the slip, and a
 * label has no room for it. */
function shortNominal(nominal: string): string {
  const series = sizeSeries.find(({ name }) => nominal.startsWith(`${name}, `) || nominal.endsWith(`, ${name}`));
  if (!series) return nominal;
  const around = series.name.length + 2;
  const size = nominal.startsWith(series.name) ? nominal.slice(around) : nominal.slice(0, -around);
  return /^[\d.]+$/.test(size) ? `${size} mm` : size;
}

/** `32 mm PVC-U`: the name of the size where there is one, else the bore. */
export const sizeText = (drawing: Drawing, pipe: Pipe): string =>
  sizeAndMaterial(drawing, pipe, plainText(pipe.nominal ?? ""));

function sizeAndMaterial(drawing: Drawing, pipe: Pipe, nominal: string): string {
  const size = nominal === "" ? `bore ${formatBore(pipe.bore, drawing.system)}` : nominal;
  const material = materialWords[pipe.material ?? "pvc"];
  const saysSo =
    size.toLowerCase().includes(material.toLowerCase()) ||
    ((pipe.material ?? "pvc") === "pvc" && /schedule|pvc/i.test(size));
  return saysSo ? size : `${size} ${material}`;
}

const tooLong = (text: string, most: number): string =>
  [...text].length > most
    ? `${[...text]
        .slice(0, most - 1)
        .join("")
        .trimEnd()}…`
    : text;

/** m³/s, half a litre an hour: what a power cut's last drops are left to run at once its levels are at rest */
const trickle = 0.5e-3 / 3600;

function linesOf(drawing: Drawing, pipe: Pipe): readonly (readonly LabelLine[])[] {
  const reading = drawing.running?.pipes.get(pipe.id);
  const flow = flowOf(drawing, pipe.id);
  const short = shortNominal(plainText(pipe.nominal ?? ""));
  const size = matterOf(drawing, pipe.id) ?? tooLong(sizeAndMaterial(drawing, pipe, short), 26);
  const length = formatLength(reading?.length ?? lineLength(pipeLine(drawing.section, pipe)), drawing.system);
  const soft = (text: string): LabelLine => ({
    size: letters.small,
    runs: [{ text, weight: 400, fill: matterOf(drawing, pipe.id) === null ? "soft" : "part" }],
  });
  if (flow === null || !reading) return [[soft(`${size} · ${length}`)], [soft(size)]];
  // Several still pipes could not be told from each other.
  const named = `${tooLong(nameOf(pipe), 24)}: no flow`;
  const figures = (q: number, still: string): LabelLine["runs"] => {
    const isStill = Math.abs(q) < (drawing.moment === null ? noFlow : trickle);
    const text = isStill ? still : formatFlow(Math.abs(q), drawing.system);
    const velocity = Math.abs(q) / ((Math.PI * pipe.bore ** 2) / 4);
    const first = { text, weight: isStill ? 500 : 600, fill: "ink" } as const;
    return velocity < leastVelocity
      ? [first]
      : [first, { text: formatVelocity(velocity, drawing.system), weight: 600, fill: "ink" }];
  };
  const runningFigures = { size: letters.note, runs: figures(reading.flow, named) };
  // On paper nothing plays, and room kept free would part a leader from its words.
  const reserved = (widest: LabelLine): Pick<LabelLine, "reserve"> =>
    drawing.input.view.isoMargins === undefined ? { reserve: lineWidth(widest) } : {};
  // While a run plays a label keeps the place that it has, and no more.
  const namedLine: LabelLine = { size: letters.note, runs: [{ text: named, weight: 500, fill: "ink" }] };
  const fits = drawing.moment === null || lineWidth(namedLine) <= lineWidth(runningFigures);
  const top: LabelLine = {
    size: letters.note,
    runs: figures(flow, fits ? named : "no flow"),
    ...reserved(runningFigures),
  };
  const loss = reading.frictionLoss + reading.fittingLoss;
  const invert = invertText(drawing, pipe);
  const lossText =
    reading.runs === "full" && Math.abs(reading.flow) >= noFlow ? ` · loss ${formatHead(loss, drawing.system)}` : "";
  // The loss is that of the running state; its place stays its own while the power cut plays.
  const under = (text: string): LabelLine => {
    const whole = soft(`${text}${lossText}${invert}`);
    return drawing.moment === null ? whole : { ...soft(`${text}${invert}`), ...reserved(whole) };
  };
  return [[top, under(`${size} · ${length}`)], [top, under(size)], [top, soft(size)], [top]];
}

/** A gravity pipe's mouth says where the vessel comes to rest. */
function invertText(drawing: Drawing, pipe: Pipe): string {
  if (matterOf(drawing, pipe.id) !== null) return "";
  if (!("part" in pipe.from) || drawing.section.parts.get(pipe.from.part)?.kind !== "vessel") return "";
  if ((pipe.from.mouth ?? "side") !== "side" || pipe.from.z === undefined) return "";
  // A flush pipe's mouth is a place to empty it, not where it comes to rest.
  if (drawing.parts.some((part) => part.kind === "valve" && part.on.pipe === pipe.id && valveRole(part) === "flush"))
    return "";
  return ` · invert ${formatLevel(pipe.from.z - pipe.bore / 2, drawing.system)}`;
}

const label = (drawing: Drawing, pipe: Pipe): LabelRequest => ({
  key: `${pipe.id} figures`,
  part: pipe.id,
  ...numberOf(drawing, pipe.id),
  own: halfWidth(drawing, pipe.bore) + 0.6,
  variants: linesOf(drawing, pipe),
  ...spotsAlong(
    pipeLine(drawing.section, pipe).map((place) => paperAt(drawing, place)),
    halfWidth(drawing, pipe.bore),
  ),
});

export const pipeDrawing: PartDrawing<Pipe> = {
  draw: (drawing, pipe) => [...pipeWalls(drawing, pipe), ...pipeContent(drawing, pipe)],
  block: (drawing, pipe, obstacles) => {
    obstacles.addLine(
      pipeLine(drawing.section, pipe).map((place) => paperAt(drawing, place)),
      halfWidth(drawing, pipe.bore),
    );
  },
  // The end that a fault parts from its line speaks for itself.
  labels: (drawing, pipe) => (ownerOf(pipe.id) === pipe.id ? [label(drawing, pipe)] : []),
};
