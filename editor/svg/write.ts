/** A whole sheet as one SVG file: the drawing at a true scale on a lying sheet of paper, its tables, and the
 * document itself inside, so that the picture opens again as a drawing.
 *
 * Nothing in it reaches outside the file, and nothing runs. One user unit is a millimetre of paper. */
import { type Finding, type PowerCut, type Running, type Section, writeSection } from "../../hydraulics/index.ts";
import { buildScene, type SceneInput } from "../scene/build.ts";
import { drawingOf } from "../scene/drawing.ts";
import { type LayoutOptions, type SheetLayout, sheetLayout } from "../scene/layout.ts";
import { type PaletteName, palettes, penWidths } from "../scene/palette.ts";
import { plainText } from "../scene/plainText.ts";
import { verdictOf } from "../scene/verdict.ts";
import { boundsOf, fit as placeIn, type Rect, trueScale } from "../sheet/transform.ts";
import { formatFlow, type UnitSystem } from "../sheet/units.ts";
import { metadataId } from "./documentInside.ts";
import { element } from "./element.ts";
import { escaped } from "./escaped.ts";
import { paintSvg } from "./paintSvg.ts";
import { partNumbers } from "./partsList.ts";
import { type PaperName, sheetPapers } from "./sheetPaper.ts";
import { drawTables, tablesHeights } from "./tables.ts";

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
}

export function sheetSvg(options: SheetOptions): string {
  const { section, paper, theme } = options;
  const { input, scale, tables, mm, numbers } = plan(options);
  const { width, height } = sheetPapers[paper];
  const palette = palettes[theme];
  const brush = { transform: input.view.transform, palette, pens: penWidths.print, mm };
  const nodes = [...buildScene(input), ...drawTables(drawingOf(input), numbers, tables)];
  const title = plainText(section.title) || "Untitled";
  const lines = [
    element("title", { id: "holdwater-title" }, escaped(title)),
    element("desc", { id: "holdwater-desc" }, escaped(described(input, `1:${scale} on ${paper}`))),
    element("metadata", { id: metadataId }, carried(section)),
    element("rect", { width, height, fill: palette.sheet }),
    paintSvg(nodes, brush),
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

/** The largest usual scale at which the section fits on this sheet, as its denominator. */
export const largestScale = ({ scale: _, ...options }: SheetOptions): number => plan(options).scale;

interface Plan {
  readonly input: SceneInput;
  readonly scale: number;
  readonly tables: Rect;
  /** mm of the printed sheet that a mm of the scene takes */
  readonly mm: number;
  readonly numbers: ReturnType<typeof partNumbers>;
}

function plan(options: SheetOptions): Plan {
  const { section, running, powerCut, findings, system, date, moment } = options;
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
  const { all, least } = tablesHeights(drawingOf(inputFor(margins, 1, bare)), numbers, bare.frame.width);
  const bounds = boundsOf(section);
  // The picture first: the tables get what it leaves, so long as all that may not fall away has its place.
  const room = sheetLayout(paper, { ...margins, tables: least }).drawing;
  const scale =
    options.scale ?? trueScale(bounds, { x: 0, y: 0, width: room.width / shrink, height: room.height / shrink });
  const left = room.height - ((bounds.top - bounds.bottom) * 1000 * shrink) / scale;
  const layout: LayoutOptions = { ...margins, tables: Math.min(Math.max(all, least), least + Math.max(left, 0)) };
  const placed = sheetLayout(paper, layout);
  if (!placed.tables) throw new Error("a sheet was laid out without its tables");
  return { input: inputFor(layout, scale, placed), scale, tables: placed.tables, mm: 1 / shrink, numbers };
}

/** For those who hear the picture: what it is, the verdict, why, and the flow. */
function described(input: SceneInput, scale: string): string {
  const { words, reason } = verdictOf(drawingOf(input));
  const { running, findings } = input;
  const pumps = running?.converged ? [...running.pumps.values()] : [];
  const flow = pumps.reduce((sum, pump) => sum + Math.max(pump.flow, 0), 0);
  return [
    `Section of a pond and its filter, ${scale}.`,
    `${words}. ${reason}`.trim(),
    pumps.length > 0 ? `Delivered: ${formatFlow(flow, input.view.system)}.` : "",
    `Findings: ${findings.length}.`,
  ]
    .filter(Boolean)
    .join(" ");
}

/** The document as character data. Its text has no line feeds or controls but its own; the two letters that XML
 * can not hold are written as JSON writes them. */
const carried = (section: Section): string =>
  writeSection(section)
    .replace(/[\uFFFE\uFFFF]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16)}`)
    .replace(/[&<>]/g, (letter) => (letter === "&" ? "&amp;" : letter === "<" ? "&lt;" : "&gt;"));
