import { fileOpen } from "browser-fs-access";
import type { Desk } from "../desk.ts";
import { problemLine, readDrawing } from "./readDrawing.ts";

/** More than a section may hold; read no further. */
const greatest = 16 * 1024 * 1024 + 4096;

/** Opens what the user picks. A file that can not be read leaves the drawing that is open as it is. */
export async function openFile(desk: Desk): Promise<void> {
  try {
    const file = await fileOpen({
      description: "Drawings",
      mimeTypes: ["application/json", "image/svg+xml"],
      extensions: [".json", ".svg"],
    });
    await openDropped(desk, file, file.handle ?? null);
  } catch (error) {
    // The picker was closed: the user changed their mind.
    if (!isAbort(error)) throw error;
  }
}

export async function openDropped(desk: Desk, file: File, handle: unknown = null): Promise<void> {
  if (file.size > greatest)
    return desk.say({ text: `${file.name} was not opened: a drawing has at most 16 MiB.`, tone: "refusal" });
  const read = readDrawing(await file.text());
  if (!read.ok) {
    const shown = read.error.slice(0, 12).map(problemLine);
    const rest = read.error.length - shown.length;
    return desk.say({
      text: `${file.name} was not opened. The drawing on the sheet is as it was.`,
      lines: rest > 0 ? [...shown, `and ${rest} more`] : shown,
      tone: "refusal",
    });
  }
  // Saving goes back to a JSON file only; an SVG is a picture that was opened.
  desk.open(read.value, { name: file.name, handle: file.name.endsWith(".json") ? handle : null });
}

export const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";
