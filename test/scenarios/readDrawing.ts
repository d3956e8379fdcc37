import { readFileSync } from "node:fs";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Section } from "../../hydraulics/document/section.ts";

/** A drawing beside the scenarios' tests; a drawing that the reader refuses is a slip of the test. */
export function readDrawing(path: string): Section {
  const read = readSection(readFileSync(new URL(path, import.meta.url), "utf8"));
  if (!read.ok)
    throw new Error(
      `${path}: ${read.error.map((problem) => `${problem.path}: expected ${problem.expected}, found ${problem.found}`).join("; ")}`,
    );
  return read.value;
}
