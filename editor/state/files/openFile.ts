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

/** What was let go over the sheet: one file is opened; anything else is refused in words. */
export async function takeDropped(desk: Desk, dropped: DataTransfer): Promise<void> {
  const [file, ...more] = dropped.files;
  if (file && more.length === 0) return openDropped(desk, file);
  desk.say({
    text: file
      ? `Nothing was opened: one drawing goes on the sheet at a time, and ${more.length + 1} files were dropped. The drawing on the sheet is as it was.`
      : "Nothing was opened: what was dropped is no file. The drawing on the sheet is as it was.",
    tone: "refusal",
  });
}

async function openDropped(desk: Desk, file: File, handle: unknown = null): Promise<void> {
  if (file.size > greatest)
    return desk.say({
      text: `${file.name} was not opened: a drawing has at most 16 MiB. The drawing on the sheet is as it was.`,
      tone: "refusal",
    });
  const bytes = await file.arrayBuffer().catch((error: unknown) => {
    // Gone meanwhile, or a folder, or locked by another program.
    if (error instanceof DOMException) return null;
    throw error;
  });
  if (bytes === null)
    return desk.say({
      text: `${file.name} was not opened: the browser can not read it. The drawing on the sheet is as it was.`,
      tone: "refusal",
    });
  const text = textIn(new Uint8Array(bytes));
  if (text === null)
    return desk.say({
      text: `${file.name} was not opened: it is no drawing. A drawing is a .json file, or an .svg that was saved here. The drawing on the sheet is as it was.`,
      tone: "refusal",
    });
  const read = readDrawing(text);
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

/** UTF-8, or UTF-16 that says so. Null where it is no text: a picture, an archive, letters of another encoding; or
 * nothing at all. Letters that are not understood are not guessed: they would stand in the drawing from then on. */
function textIn(bytes: Uint8Array): string | null {
  const [first, second] = bytes;
  const wide = first === 0xff && second === 0xfe ? "utf-16le" : first === 0xfe && second === 0xff ? "utf-16be" : null;
  try {
    const text = new TextDecoder(wide ?? "utf-8", { fatal: true }).decode(bytes);
    return text.trim() === "" || text.includes("\0") ? null : text;
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}

export const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";
