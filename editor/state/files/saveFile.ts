import { fileSave } from "browser-fs-access";
import { writeSection } from "../../../hydraulics/index.ts";
import type { Desk } from "../desk.ts";
import { fileNameOf } from "./fileName.ts";
import { isAbort } from "./openFile.ts";

/** Saves to the file that was opened, or, with `asNew` or without one, to a file the user names. */
export async function saveFile(desk: Desk, asNew: boolean): Promise<void> {
  const { section, history, file } = desk.get();
  const name = file?.name.endsWith(".json") ? file.name : fileNameOf(section.title, ".json");
  const blob = new Blob([writeSection(section)], { type: "application/json" });
  const known = asNew ? null : ((file?.handle ?? null) as FileSystemFileHandle | null);
  try {
    const handle = await fileSave(
      blob,
      { fileName: name, extensions: [".json"], description: "Holdwater drawing" },
      known,
    );
    desk.markSaved({ section, history }, { name: handle?.name ?? name, handle: handle ?? null });
  } catch (error) {
    if (isAbort(error)) return;
    desk.say({
      text: `The drawing was not saved: ${error instanceof Error ? error.message : String(error)}`,
      tone: "refusal",
    });
  }
}
