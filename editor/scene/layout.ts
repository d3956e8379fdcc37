/** Where things stand on the sheet, in millimetres of paper: frame, section, strip, title block.
 *
 *   ┌──────────────────────────┐      narrow:  ┌────────┐
 *   │ headroom                 │               │section │
 *   │ section                  │               ├────────┤
 *   ├───────────────┬──────────┤               │ strip  │
 *   │ strip         │ title    │               │ title  │
 *   └───────────────┴──────────┘               └────────┘ */
import type { Section } from "../../hydraulics/index.ts";
import { boundsOf, fit as fitInto, type Rect, type SheetTransform, trueScale } from "../sheet/transform.ts";

export interface Paper {
  readonly width: number;
  readonly height: number;
}

export interface LayoutOptions {
  /** kept free under the upper frame line: the stencils on a screen */
  readonly headroom?: number;
  /** kept free over strip and title block: the tables of a hand-out */
  readonly tables?: number;
  /** ISO 5457 margins (20 mm for the file's rings, 10 mm) instead of those of a window; value is the millimetre */
  readonly isoMargins?: number;
  /** only this much of the paper, without frame, strip and title block: one picture of a sequence */
  readonly panel?: Rect;
}

export interface SheetLayout {
  readonly frame: Rect;
  /** where the section goes; labels may use all of `field` */
  readonly drawing: Rect;
  readonly field: Rect;
  readonly tables: Rect | null;
  /** null where the sheet is too small for it */
  readonly strip: Rect | null;
  readonly title: Rect;
  readonly narrow: boolean;
}

/** Width of the ruler on the left frame edge. */
export const rulerWidth = 15;
const titleHeight = 55;
/** of the verdict and of what drawing this is, alone */
const briefTitle = 24;
/** Under this a section with labels round it would be nothing but labels. */
const leastLabelled = 25;
/** Where less than this is left for the section, the title block has no figures and no reasons. */
const leastSection = 40;
const titleWidth = 112;
/** Narrow, an event may take two lines over the curves. */
const narrowStrip = 44;
/** Under this neither words of the title block nor curves have room beside each other. */
const leastSideBySide = 160;
/** Under this they fill more rows than the headroom has. */
const leastWordy = 230;
/** Under this nothing is left between a strip's words and its axis. */
const leastStrip = 28;

/** A hand's screen: margins shrink, and what stands side by side on a desk stands one under the other. */
export const isNarrow = ({ width }: Pick<Paper, "width">): boolean => width < 200;

export function sheetLayout(paper: Paper, options: LayoutOptions = {}): SheetLayout {
  if (options.panel) return panelLayout(options.panel);
  const narrow = isNarrow(paper);
  const iso = options.isoMargins;
  const side = iso !== undefined ? 10 * iso : narrow ? 2.5 : 5;
  const left = iso !== undefined ? 20 * iso : narrow ? 2.5 : 12;
  const frame: Rect = {
    x: left,
    y: side,
    width: Math.max(paper.width - left - side, 40),
    height: Math.max(paper.height - 2 * side, 40),
  };
  const bottom = frame.y + frame.height;
  const right = frame.x + frame.width;
  const low = paper.height < 150;
  // A low window, or one seen at twice its size, has both side by side as a wide one has.
  const sideBySide = !narrow || (low && paper.width >= leastSideBySide);
  const width = sideBySide ? Math.min(titleWidth, frame.width * 0.5) : frame.width;
  // On a phone that lies on its side the section stands beside the title block, or nothing would be left of it.
  const beside = !narrow && paper.height < 125;
  const roof = frame.y + (options.headroom ?? 0);
  const brief = narrow && !sideBySide && bottom - roof < titleHeight + leastSection;
  const height = brief ? briefTitle : titleHeight;
  const title: Rect = { x: right - width, y: bottom - height, width, height };
  // Over the title block, unless the words along the upper edge come down there.
  const over = paper.width < leastWordy ? 0 : Math.min(title.y - roof, narrowStrip);
  const strip: Rect | null = beside
    ? over < leastStrip
      ? null
      : { x: title.x, y: title.y - over, width, height: over }
    : sideBySide
      ? { x: frame.x, y: title.y, width: title.x - frame.x, height: titleHeight }
      : low
        ? null
        : { x: frame.x, y: title.y - narrowStrip, width: frame.width, height: narrowStrip };
  const floor = (beside ? bottom : (strip?.y ?? title.y)) - (options.tables ?? 0);
  const field: Rect = {
    x: frame.x,
    y: roof,
    width: beside ? frame.width - width : frame.width,
    height: Math.max(floor - roof, 10),
  };
  const tables = options.tables ? { x: frame.x, y: floor, width: frame.width, height: options.tables } : null;
  return { frame, drawing: inset(field, narrow), field, tables, strip, title, narrow };
}

/** Its level marks need less: no dimensions stand under it. */
function panelLayout(panel: Rect): SheetLayout {
  const drawing = {
    x: panel.x + rulerWidth + 8,
    y: panel.y + 9,
    width: Math.max(panel.width - rulerWidth - 8 - 36, 10),
    height: Math.max(panel.height - 9 - 13, 10),
  };
  const title = { x: panel.x, y: panel.y + panel.height, width: panel.width, height: 0 };
  return { frame: panel, drawing, field: panel, tables: null, strip: null, title, narrow: false };
}

/** Room for the ruler, level marks beside the outermost parts, labels over and dimensions under the section. */
function inset(field: Rect, narrow: boolean): Rect {
  const left = rulerWidth + (narrow ? 2 : 12);
  const right = narrow ? 12 : 42;
  // The smallest windows show the section, whatever becomes of its labels.
  const low = narrow && field.height < leastLabelled;
  const top = low ? 4 : 14;
  const bottom = low ? 3 : narrow ? 12 : 24;
  return {
    x: field.x + left,
    y: field.y + top,
    width: Math.max(field.width - left - right, 10),
    height: Math.max(field.height - top - bottom, low ? 5 : 10),
  };
}

/** The transform that shows the whole section on a sheet, as large as it goes or at a true scale. */
export function fitSection(
  section: Section,
  paper: Paper,
  options: LayoutOptions & { readonly scale?: number | "true" } = {},
): SheetTransform {
  const { drawing } = sheetLayout(paper, options);
  const bounds = boundsOf(section);
  const scale = options.scale === "true" ? trueScale(bounds, drawing) : options.scale;
  return fitInto(bounds, drawing, scale);
}
