/** Moments of a power cut under one another on one sheet, at one true scale, to explain it with: what stood where, and
 * what had happened by then. Upright or lying, whichever shows it larger. */
import { type Body, cautions, type Section } from "../../hydraulics/index.ts";
import { composeSection, type SceneInput } from "../scene/build.ts";
import { type Drawing, drawingOf, nameOf, waterLevel } from "../scene/drawing.ts";
import { drawFrame, drawPaper } from "../scene/frame.ts";
import { stroke, words } from "../scene/ink.ts";
import { type LayoutOptions, sheetLayout } from "../scene/layout.ts";
import { letters } from "../scene/letters.ts";
import type { SceneNode } from "../scene/node.ts";
import { palettes, penWidths } from "../scene/palette.ts";
import { plainText } from "../scene/plainText.ts";
import { drawStrip, stripAxis, stripPlot } from "../scene/strip.ts";
import { drawTitleBlock } from "../scene/titleBlock.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import { boundsOf, fit as placeIn, type Rect, trueScale } from "../sheet/transform.ts";
import { formatLevelUnit, formatTime } from "../sheet/units.ts";
import { type Moment, mostMoments } from "./moments.ts";
import { sheetPapers } from "./sheetPaper.ts";
import { wholeText } from "./wholeText.ts";
import { inWords, type PaintedSheet, type SheetOptions, svgOf } from "./write.ts";

export interface SequenceOptions extends Omit<SheetOptions, "moment"> {
  readonly moments: readonly Moment[];
}

export function sequenceSvg(options: SequenceOptions): string {
  const { section, paper } = options;
  const made = planSequence(options);
  const description = `The section at ${options.moments.length} moments of a power cut, 1:${made.scale} on ${paper}. ${inWords(made.input)}`;
  return svgOf([paintSequence(options, made)], { section, description });
}

/** The denominator of the largest usual scale at which all the pictures fit. */
export const largestSequenceScale = ({ scale: _, ...options }: SequenceOptions): number => planSequence(options).scale;

export const sequenceSheet = (options: SequenceOptions): PaintedSheet => paintSequence(options, planSequence(options));

interface Plan {
  readonly scale: number;
  /** of the printed sheet, mm */
  readonly width: number;
  readonly height: number;
  readonly shrink: number;
  /** the sheet around the pictures */
  readonly input: SceneInput;
  readonly panels: readonly Panel[];
  readonly care: readonly (readonly string[])[];
}

interface Panel {
  readonly moment: Moment;
  readonly lines: readonly string[];
  /** title and lines stand over the picture */
  readonly rect: Rect;
  readonly picture: Rect;
  readonly input: SceneInput;
}

const pitch = 3.9;
const pad = 3;
const small = { size: letters.small, weight: 400 } as const;

/** The larger picture wins; where both are equal the upright sheet has more air. */
function planSequence(options: SequenceOptions): Plan {
  const upright = planOn(options, true);
  const lying = planOn(options, false);
  return lying.scale < upright.scale ? lying : upright;
}

function planOn(options: SequenceOptions, isUpright: boolean): Plan {
  const { section, moments } = options;
  if (moments.length === 0 || moments.length > mostMoments)
    throw new Error(`a sequence was to show ${moments.length} moments`);
  const { width: long, height: short, shrink } = sheetPapers[options.paper];
  const [width, height] = isUpright ? [short, long] : [long, short];
  const paper = { width: width * shrink, height: height * shrink };
  const margins: LayoutOptions = { isoMargins: shrink };
  const layout = sheetLayout(paper, margins);
  const { frame, field } = layout;
  const care = careColumns(frame.width);
  const careHeight = Math.max(...care.map((lines) => lines.length)) * pitch + 8.5;
  const each = (field.height - careHeight) / moments.length;
  const view = (layoutOptions: LayoutOptions, drawn: Rect, moment: number | null, scale: number): SceneInput => ({
    section,
    running: options.running,
    powerCut: options.powerCut,
    findings: options.findings,
    view: {
      ...layoutOptions,
      system: options.system,
      moment,
      transform: placeIn(bounds, drawn, scale / shrink),
      paper,
      scaleText: `1:${scale} on ${options.paper}`,
      ...(options.date === undefined ? {} : { date: options.date }),
    },
  });
  const bounds = boundsOf(section);
  const lines = moments.map((moment, i) => {
    const drawing = drawingOf(view(margins, layout.drawing, moment.time, 1));
    return wholeText(told(drawing, moment, moments[i - 1] ?? null), frame.width - 2 * pad, small);
  });
  // All pictures alike, whatever is said over them.
  const head = 6.6 + Math.max(...lines.map((each) => each.length)) * pitch;
  const rects = moments.map((_, i): Rect => ({ x: frame.x, y: field.y + i * each, width: frame.width, height: each }));
  const pictures = rects.map((rect): Rect => ({ ...rect, y: rect.y + head, height: Math.max(rect.height - head, 10) }));
  const room = sheetLayout(paper, { ...margins, panel: pictures[0] as Rect }).drawing;
  const scale =
    options.scale ?? trueScale(bounds, { x: 0, y: 0, width: room.width / shrink, height: room.height / shrink });
  return {
    scale,
    width,
    height,
    shrink,
    care,
    input: view(margins, layout.drawing, null, scale),
    panels: moments.map((moment, i): Panel => {
      const picture = pictures[i] as Rect;
      const panel: LayoutOptions = { ...margins, panel: picture };
      return {
        moment,
        lines: lines[i] as readonly string[],
        rect: rects[i] as Rect,
        picture,
        input: view(panel, sheetLayout(paper, panel).drawing, moment.time, scale),
      };
    }),
  };
}

function paintSequence(options: SequenceOptions, plan: Plan): PaintedSheet {
  const { input, panels, width, height, shrink } = plan;
  const drawing = drawingOf(input);
  const transforms = panels.map((panel) => panel.input.view.transform);
  const nodes = [
    drawPaper(drawing),
    ...panels.flatMap((panel, i) => inPlace(drawPanel(panel, i), transforms[i], transforms[0])),
    ...drawFrame(drawing),
    ...drawStrip(drawing),
    ...marks(drawing, panels),
    ...drawCare(drawing, plan.care),
    ...drawTitleBlock(drawing),
  ];
  return {
    nodes,
    brush: {
      transform: transforms[0] ?? input.view.transform,
      palette: palettes[options.theme],
      pens: penWidths.print,
      mm: 1 / shrink,
    },
    width,
    height,
  };
}

/** A sheet has one transform, that of its first picture: the site places of a lower one are moved down by as many
 * metres as it stands lower on the paper. */
function inPlace(
  nodes: readonly SceneNode[],
  own: SceneInput["view"]["transform"] | undefined,
  first: SceneInput["view"]["transform"] | undefined,
): readonly SceneNode[] {
  if (!own || !first || own === first) return nodes;
  const down = own.z0 - first.z0;
  return nodes.map((node) => {
    if (node.space === "paper") return node;
    if (node.shape === "line") return { ...node, points: node.points.map(([x, z]) => [x, z - down] as const) };
    return { ...node, at: [node.at[0], node.at[1] - down] };
  });
}

const letterOf = (i: number): string => String.fromCharCode(65 + i);

function drawPanel({ moment, lines, rect, input }: Panel, i: number): readonly SceneNode[] {
  const key = `sheet moment ${i}`;
  const left = rect.x + pad;
  return [
    ...composeSection(drawingOf(input)).nodes.map((node) => ({ ...node, key: `${node.key} ${i}` })),
    ...(i > 0
      ? [
          stroke(
            `${key} line`,
            [
              [rect.x, rect.y],
              [rect.x + rect.width, rect.y],
            ],
            "dimension",
            "soft",
          ),
        ]
      : []),
    words(`${key} letter`, [left, rect.y + 6], letterOf(i), { size: letters.figure, weight: 600 }),
    words(`${key} title`, [left + 5.4, rect.y + 6], moment.title, { size: letters.name, weight: 600 }),
    ...lines.map((line, n) =>
      words(`${key} told ${n}`, [left, rect.y + 10.6 + n * pitch], line, { size: letters.small }),
    ),
  ];
}

/** The levels at that moment, and what happened since the moment before. */
function told(drawing: Drawing, moment: Moment, last: Moment | null): string {
  const { section, powerCut, system } = drawing;
  const levels = bodiesOf(section).flatMap((body) => {
    const level = waterLevel(drawing, body);
    return level === null ? [] : [`${nameOf(body)} ${formatLevelUnit(level, system)}`];
  });
  const { time } = moment;
  const since = last === null ? null : (last.time ?? -1);
  const says = sentencesOf(section, system);
  const events =
    time === null || !powerCut
      ? []
      : powerCut.events
          .filter((event) => event.time <= time + 1e-6 && (since === null || event.time > since + 1e-6))
          .map((event) => `${formatTime(event.time)}: ${plainText(says(event.text))}`);
  return [levels.length > 0 ? `${levels.join(" · ")}.` : "", ...events].filter(Boolean).join(" ");
}

const bodiesOf = (section: Section): readonly Body[] =>
  [...section.parts.values()]
    .filter((part): part is Body => part.kind === "vessel" || part.kind === "pond")
    .sort((a, b) => a.rank - b.rank);

/** Where on the strip the pictures belong. */
function marks(drawing: Drawing, panels: readonly Panel[]): readonly SceneNode[] {
  const { strip } = drawing.layout;
  const cut = drawing.powerCut;
  if (!strip || !cut || cut.history.times.length < 2) return [];
  const area = stripPlot(strip);
  const axis = stripAxis(cut);
  return panels.flatMap(({ moment: { time } }, i) => {
    if (time === null) return [];
    const x = area.x + area.width * axis.shareAt(time);
    return [
      stroke(
        `sheet moment ${i} mark`,
        [
          [x, area.y - 0.9],
          [x, area.y + 0.9],
        ],
        "part",
        "ink",
      ),
      words(`sheet moment ${i} mark letter`, [x, area.y - 1.6], letterOf(i), {
        size: letters.note,
        weight: 600,
        anchor: "middle",
      }),
    ];
  });
}

function careColumns(width: number): readonly (readonly string[])[] {
  const room = width / 2 - 2 * pad;
  const texts = cautions.map((each) => wholeText(each, room, small));
  const columns: [string[], string[]] = [[], []];
  for (const lines of texts) (columns[0].length <= columns[1].length ? columns[0] : columns[1]).push(...lines);
  return columns;
}

function drawCare(drawing: Drawing, care: readonly (readonly string[])[]): readonly SceneNode[] {
  const { frame, title } = drawing.layout;
  const height = Math.max(...care.map((lines) => lines.length)) * pitch + 8.5;
  const top = (drawing.layout.strip?.y ?? title.y) - height;
  return [
    stroke(
      "sheet care line",
      [
        [frame.x, top],
        [frame.x + frame.width, top],
      ],
      "part",
      "ink",
    ),
    words("sheet care title", [frame.x + pad, top + 4.6], "Take care", { size: letters.note, weight: 600 }),
    ...care.flatMap((lines, c) =>
      lines.map((line, n) =>
        words(`sheet care ${c} ${n}`, [frame.x + pad + (c * frame.width) / 2, top + 9 + n * pitch], line, {
          size: letters.small,
        }),
      ),
    ),
  ];
}
