import { readdirSync, readFileSync } from "node:fs";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Section } from "../../hydraulics/document/section.ts";

/** The folders of kept drawings, from here. */
export const samples = "../../samples";
export const designs = "design";
export const trapped = "traps";

/** The drawings in folders, by the paths that `readDrawing` takes. */
export const drawingsIn = (...folders: readonly string[]): readonly string[] =>
  folders.flatMap((folder) =>
    readdirSync(new URL(`${folder}/`, import.meta.url))
      .filter((name) => name.endsWith(".json"))
      .map((name) => `${folder}/${name}`),
  );

const opened = new Map<string, Section>();

/** A drawing beside the scenarios' tests, the same object whenever it is asked for; a drawing that the reader refuses
 * is a slip of the test. */
export function readDrawing(path: string): Section {
  const file = new URL(path, import.meta.url).href;
  const drawing = opened.get(file) ?? open(path);
  opened.set(file, drawing);
  return drawing;
}

function open(path: string): Section {
  const read = readSection(readFileSync(new URL(path, import.meta.url), "utf8"));
  if (!read.ok)
    throw new Error(
      `${path}: ${read.error.map((problem) => `${problem.path}: expected ${problem.expected}, found ${problem.found}`).join("; ")}`,
    );
  return read.value;
}
