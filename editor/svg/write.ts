/** Whole sheets as one SVG file: the drawing at a true scale on a lying sheet of paper, its tables, and the document
 * itself inside, so that the picture opens again as a drawing. What the first sheet has no room for stands on further
 * ones, drawn under it in the same file.
 *
 * Nothing in it reaches outside the file, and nothing runs. One user unit is a millimetre of paper. */
import {
  type Finding,
  type PartId,
  type PowerCut,
  plainJson,
  type Running,
  type Section,
  writeSection,
} from "../../hydraulics/index.ts";
import { composeSection, type Scene, type SceneInput } from "../scene/build.ts";
import { type Drawing, drawingOf } from "../scene/drawing.ts";
import { drawFrame, drawPaper } from "../scene/frame.ts";
import { words } from "../scene/ink.ts";
import { type LayoutOptions, type SheetLayout, sheetLayout } from "../scene/layout.ts";
import { letters } from "../scene/letters.ts";
import type { SceneNode } from "../scene/node.ts";
import { type PaletteName, palettes, penWidths } from "../scene/palette.ts";
import { plainText } from "../scene/plainText.ts";
import { drawStrip } from "../scene/strip.ts";
import { drawTitleBlock } from "../scene/titleBlock.ts";
import { verdictOf } from "../scene/verdict.ts";
import { boundsOf, fit as placeIn, type Rect, trueScale, usualScales } from "../sheet/transform.ts";
import { formatFlow, type UnitSystem } from "../sheet/units.ts";
import { continuationSheets } from "./continuation.ts";
import { metadataId } from "./documentInside.ts";
import { element } from "./element.ts";
import { escaped } from "./escaped.ts";
import type { Numbers } from "./groups/group.ts";
import { type Bought, materialsGroup } from "./groups/materials.ts";
import { notesGroup } from "./groups/notes.ts";
import { paintSvg, type SvgBrush } from "./paintSvg.ts";
import { partNumbers } from "./partsList.ts";
import { type PaperName, sheetPapers } from "./sheetPaper.ts";
import { columnHeight, leastHeight } from "./tableColumn.ts";
import { columnsIn, drawTables, type Remainder } from "./tables.ts";

export interface SheetOptions {
  readonly section: Section;
  readonly running: Running | null;
  readonly powerCut: PowerCut | null;
  readonly findings: readonly Finding[];
  readonly system: UnitSystem;
  readonly paper: PaperName;
  /** the denominator: 20 for 1:20; absent: the largest usual scale that fits */
  readonly scale?: number;
  readonly theme: PaletteName;
  readonly date?: string;
  /** s after the power failed, whose levels and flows are drawn; absent: the running state */
  readonly moment?: number;
  /** prices and lengths as sold, for the list of what to buy */
  readonly bought?: Bought;
}

/** Paper with something drawn on it, as scene nodes. */
export interface PaintedSheet {
  readonly nodes: readonly SceneNode[];
  readonly brush: SvgBrush;
  /** mm */
  readonly width: number;
  readonly height: number;
}

/** The file: all sheets of the drawing, or the one that is asked for, from 1. */
export function sheetSvg(options: SheetOptions, only?: number): string {
  const sheets = sheetsOf(options);
  const shown = only === undefined ? sheets : sheets.slice(only - 1, only);
  return svgOf(shown, { section: options.section, description: describedSheet(options) });
}

/** The first with the drawing, then as many as the tables need. */
export function sheetsOf(options: SheetOptions): readonly PaintedSheet[] {
  const { input, tables, mm, numbers } = plan(options);
  const { width, height } = sheetPapers[options.paper];
  const brush = { transform: input.view.transform, palette: palettes[options.theme], pens: penWidths.print, mm };
  const drawing = drawingOf(input);
  const scene = composeSection(drawing);
  const table = drawTables(drawing, numbers, tables, materialsGroup(options.bought));
  const more = continuationSheets(input, numbers, [...table.remainders, ...notesLeftOver(drawing, scene)]);
  const first = [
    drawPaper(drawing),
    ...scene.nodes,
    ...drawFrame(drawing),
    ...drawStrip(drawing),
    ...drawTitleBlock(drawing),
    ...table.nodes,
    ...(more.length > 0 ? [sheetNumber(drawing, `sheet 1 of ${more.length + 1}`)] : []),
  ];
  return [first, ...more].map((nodes) => ({ nodes, brush, width, height }));
}

/** In the margin under the title block, where it is looked for. */
const sheetNumber = ({ layout: { frame } }: Drawing, text: string): SceneNode =>
  words("sheet number", [frame.x + frame.width, frame.y + frame.height + 4.6], text, {
    size: letters.small,
    fill: "soft",
    anchor: "end",
  });

/** Notes whose words are not all beside their place on the section. */
function notesLeftOver({ parts }: Drawing, { labels }: Scene): readonly Remainder[] {
  const closed = (text: string): string => plainText(text).replaceAll(" ", "");
  const shown = new Map(
    labels.map(({ key, nodes }) => [
      key,
      closed(nodes.map((node) => (node.shape === "text" ? node.text : "")).join("")),
    ]),
  );
  const cut = new Set<PartId>();
  for (const part of parts)
    if (part.kind === "note" && closed(part.text) !== (shown.get(`${part.id} text`) ?? "")) cut.add(part.id);
  return cut.size > 0 ? [{ group: notesGroup(cut), from: 0 }] : [];
}

/** The largest usual scale at which the section fits on this sheet, as its denominator. */
export const largestScale = ({ scale: _, ...options }: SheetOptions): number => plan(options).scale;

/** The scales worth choosing from: the largest that fits, and the next three. */
export function scalesThatFit(options: SheetOptions): readonly number[] {
  const largest = largestScale(options);
  return [largest, ...usualScales.filter((scale) => scale > largest)].slice(0, 4);
}

interface Plan {
  readonly input: SceneInput;
  readonly scale: number;
  readonly tables: Rect;
  /** mm of the printed sheet that a mm of the scene takes */
  readonly mm: number;
  readonly numbers: Numbers;
}

function plan(options: SheetOptions): Plan {
  const { section, running, powerCut, findings, system, date, moment, bought } = options;
  const { width, height, shrink } = sheetPapers[options.paper];
  const paper = { width: width * shrink, height: height * shrink };
  const numbers = partNumbers(section.parts.values());
  const inputFor = (layout: LayoutOptions, scale: number, drawn: SheetLayout): SceneInput => ({
    section,
    running,
    powerCut,
    findings,
    view: {
      ...layout,
      system,
      moment: moment ?? null,
      transform: placeIn(boundsOf(section), drawn.drawing, scale / shrink),
      paper,
      scaleText: `1:${scale} on ${options.paper}`,
      numbers,
      ...(date === undefined ? {} : { date }),
    },
  });
  const margins: LayoutOptions = { isoMargins: shrink };
  const bare = sheetLayout(paper, margins);
  const columns = columnsIn(drawingOf(inputFor(margins, 1, bare)), numbers, bare.frame.width);
  const all = Math.max(...columns.map(columnHeight));
  const withMaterials = Math.max(
    ...columnsIn(drawingOf(inputFor(margins, 1, bare)), numbers, bare.frame.width, materialsGroup(bought)).map(
      columnHeight,
    ),
  );
  const least = Math.max(...columns.map(leastHeight));
  const bounds = boundsOf(section);
  // The picture first: the tables get what it leaves, so long as all that may not fall away has its place.
  const room = sheetLayout(paper, { ...margins, tables: least }).drawing;
  const scale =
    options.scale ?? trueScale(bounds, { x: 0, y: 0, width: room.width / shrink, height: room.height / shrink });
  const left = room.height - ((bounds.top - bounds.bottom) * 1000 * shrink) / scale;
  const most = least + Math.max(left, 0);
  const wanted = withMaterials <= most ? withMaterials : all;
  const layout: LayoutOptions = { ...margins, tables: Math.min(Math.max(wanted, least), most) };
  const placed = sheetLayout(paper, layout);
  if (!placed.tables) throw new Error("a sheet was laid out without its tables");
  return { input: inputFor(layout, scale, placed), scale, tables: placed.tables, mm: 1 / shrink, numbers };
}

/** For those who hear the picture: what it is, the verdict, why, and the flow. */
function describedSheet(options: SheetOptions): string {
  const { input, scale } = plan(options);
  return `Section of a pond and its filter, 1:${scale} on ${options.paper}. ${inWords(input)}`;
}

export function inWords(input: SceneInput): string {
  const { words: verdict, reason } = verdictOf(drawingOf(input));
  const { running, findings } = input;
  const pumps = running?.converged ? [...running.pumps.values()] : [];
  const flow = pumps.reduce((sum, pump) => sum + Math.max(pump.flow, 0), 0);
  return [
    `${verdict}. ${reason}`.trim(),
    pumps.length > 0 ? `Delivered: ${formatFlow(flow, input.view.system)}.` : "",
    `Findings: ${findings.length}.`,
  ]
    .filter(Boolean)
    .join(" ");
}

export interface About {
  /** rides inside */
  readonly section: Section;
  readonly description: string;
}

/** Sheets under one another, as one file. */
export function svgOf(sheets: readonly PaintedSheet[], { section, description }: About): string {
  const width = Math.max(...sheets.map((sheet) => sheet.width));
  const height = sheets.reduce((sum, sheet) => sum + sheet.height, 0);
  const title = plainText(section.title) || "Untitled";
  const painted: string[] = [];
  let y = 0;
  for (const sheet of sheets) {
    const { brush, nodes } = sheet;
    const content = [
      element("rect", { width: sheet.width, height: sheet.height, fill: brush.palette.sheet }),
      paintSvg(nodes, brush),
    ].join("\n");
    painted.push(
      y === 0 ? content : element("g", { class: "sheet", transform: `translate(0 ${y})` }, `\n${content}\n`),
    );
    y += sheet.height;
  }
  const lines = [
    element("title", { id: "holdwater-title" }, escaped(title)),
    element("desc", { id: "holdwater-desc" }, escaped(description)),
    element("metadata", { id: metadataId }, carried(section)),
    ...painted,
  ];
  const root = {
    xmlns: "http://www.w3.org/2000/svg",
    width: `${width}mm`,
    height: `${height}mm`,
    viewBox: `0 0 ${width} ${height}`,
    role: "img",
    "aria-labelledby": "holdwater-title holdwater-desc",
  };
  return `<?xml version="1.0" encoding="UTF-8"?>\n${element("svg", root, `\n${lines.join("\n")}\n`)}\n`;
}

/** The document as character data. What XML can not hold, what commands a terminal and what turns the direction of writing
 * is written as JSON writes it: who reads the file's source sees what is in it. */
const carried = (section: Section): string =>
  plainJson(writeSection(section)).replace(/[&<>]/g, (letter) =>
    letter === "&" ? "&amp;" : letter === "<" ? "&lt;" : "&gt;",
  );
