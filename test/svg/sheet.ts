/** A sheet of a section as the command line and the editor write it, and what may be in one. */

import { type SheetOptions, sheetSvg } from "../../editor/svg/write.ts";
import type { Section } from "../../hydraulics/index.ts";
import { assessmentOf } from "../support/assessmentOf.ts";
import { allElements, type XmlElement } from "../support/xml.ts";

export function sheetOf(section: Section, options: Partial<SheetOptions> = {}): string {
  // Where a test says how it is solved, nothing is solved for it.
  const { running, powerCut, findings } =
    "running" in options ? { running: null, powerCut: null, findings: [] } : assessmentOf(section);
  return sheetSvg({ section, running, powerCut, findings, system: "metric", paper: "A4", theme: "print", ...options });
}

const shape = ["fill", "stroke", "stroke-width", "stroke-linejoin", "stroke-linecap", "stroke-dasharray", "opacity"];
/** Elements and attributes of SVG 2 that draw and nothing else: none of them can load, link or run anything. */
const allowed: Readonly<Record<string, readonly string[]>> = {
  svg: ["xmlns", "width", "height", "viewBox", "role", "aria-labelledby"],
  title: ["id"],
  desc: ["id"],
  metadata: ["id"],
  g: ["class", "transform", "fill", "stroke-miterlimit", "font-family", "font-variant-numeric", "text-rendering"],
  rect: ["width", "height", "fill"],
  line: ["x1", "y1", "x2", "y2", ...shape],
  polyline: ["points", ...shape],
  polygon: ["points", ...shape],
  circle: ["cx", "cy", "r", ...shape],
  path: ["d", "transform", ...shape],
  text: [
    "x",
    "y",
    "font-size",
    "font-weight",
    "text-anchor",
    "fill",
    "opacity",
    "transform",
    "textLength",
    "lengthAdjust",
  ],
};

/** What must not be in a sheet, as lines. */
export function strangersIn(root: XmlElement): readonly string[] {
  return allElements(root).flatMap(({ name, attributes }) => {
    const known = allowed[name];
    if (!known) return [`<${name}>`];
    return [...attributes].flatMap(([key, value]) => {
      if (!known.includes(key)) return [`${key} on <${name}>`];
      const reaches = /url\(|javascript:|data:|https?:/i.test(value) && key !== "xmlns";
      const isNonsense = /NaN|undefined|Infinity|null/.test(value);
      return reaches || isNonsense ? [`${key}="${value.slice(0, 60)}"`] : [];
    });
  });
}
