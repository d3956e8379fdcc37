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
      text: `The drawing was not saved: ${saveTrouble(error)}. On the sheet it is as it was.`,
      tone: "refusal",
    });
  }
}

/** To go on from a colon; what browsers say themselves differs. */
function saveTrouble(error: unknown): string {
  const { name, message } = error instanceof Error ? error : { name: "", message: String(error) };
  switch (name) {
    case "QuotaExceededError":
      return "there is no room for it";
    case "NotAllowedError":
    case "SecurityError":
      return "the browser may not write there";
    case "NoModificationAllowedError":
    case "InvalidStateError":
      return "another program holds the file";
    case "NotFoundError":
      return "the file or its folder is gone; save it under another name";
    default:
      return message.replace(/\.$/, "") || "the browser does not say why";
  }
}
