/** The section alone as a small picture: earth, bodies, pipes and water, without words. */
import type { Running, Section } from "../../hydraulics/index.ts";
import { composeSection } from "../scene/build.ts";
import { drawingOf } from "../scene/drawing.ts";
import { type Paper, sheetLayout } from "../scene/layout.ts";
import { type PaletteName, palettes, penWidths } from "../scene/palette.ts";
import { boundsOf, fit, type Rect } from "../sheet/transform.ts";
import type { PaintedSheet } from "./write.ts";

export interface SectionPictureOptions {
  readonly section: Section;
  readonly running: Running | null;
  readonly theme: PaletteName;
  /** mm */
  readonly paper: Paper;
}

const wordless = new Set(["labels", "marks", "frame"]);
const margin = 7;

export function sectionPicture({ section, running, theme, paper }: SectionPictureOptions): PaintedSheet {
  // Notes are words; where they stand says nothing about the picture.
  const parts = new Map([...section.parts].filter(([, part]) => part.kind !== "note"));
  const drawn: Section = { ...section, parts };
  const panel: Rect = { x: 0, y: 0, ...paper };
  const room: Rect = {
    x: margin,
    y: margin,
    width: paper.width - 2 * margin,
    height: paper.height - 2 * margin - 6,
  };
  const input = {
    section: drawn,
    running,
    powerCut: null,
    findings: [],
    view: { panel, system: "metric", moment: null, transform: fit(boundsOf(drawn), room), paper } as const,
  };
  const drawing = drawingOf(input);
  // Nothing stands on the left edge here, so the earth goes on to it.
  const wide = {
    ...drawing,
    layout: { ...sheetLayout(paper, { panel }), frame: { ...panel, x: -20, width: paper.width + 40 } },
  };
  return {
    nodes: composeSection(wide).nodes.filter((node) => !wordless.has(node.layer)),
    brush: { transform: input.view.transform, palette: palettes[theme], pens: penWidths.print, mm: 1 },
    ...paper,
  };
}
