/** A drawing from a file's text: our JSON, or an SVG that we wrote and that carries the drawing inside. */
import { type Problem, type Result, readSection, type Section } from "../../../hydraulics/index.ts";

export function readDrawing(text: string): Result<Section, readonly Problem[]> {
  return readSection(text);
}

/** A problem as one line for a person. */
export const problemLine = ({ path, expected, found }: Problem): string =>
  `${path === "" ? "The file" : path}: expected ${expected}, found ${found}`;
