/** A drawing from a file's text: our JSON, or an SVG that we wrote and that carries the drawing inside. */
import { type Problem, type Result, readSection, type Section } from "../../../hydraulics/index.ts";
import { sectionTextFromSvg } from "../../svg/documentInside.ts";

export function readDrawing(text: string): Result<Section, readonly Problem[]> {
  // JSON never begins with a tag, and an SVG always does.
  if (!/^\uFEFF?\s*</.test(text)) return readSection(text);
  const inside = sectionTextFromSvg(text);
  if (inside.ok) return readSection(inside.value);
  return { ok: false, error: [{ path: "", expected: "an SVG that carries a drawing of ours", found: inside.error }] };
}

/** A problem as one line for a person. */
export const problemLine = ({ path, expected, found }: Problem): string =>
  `${path === "" ? "The file" : path}: expected ${expected}, found ${found}`;
