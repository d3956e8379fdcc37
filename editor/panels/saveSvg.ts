import { fileSave } from "browser-fs-access";
import type { Desk } from "../state/desk.ts";
import { fileNameOf } from "../state/files/fileName.ts";
import { isAbort } from "../state/files/openFile.ts";
import type { Results } from "../worker/results.ts";
import { chosenNow } from "./handOutChoices.ts";
import { handOutOf } from "./handOutSheets.ts";
import { pricesNow } from "./why/prices.ts";

/** Hands out the sheet as an SVG file, as it was chosen to be shown. */
export async function saveSvg(desk: Desk, results: Results): Promise<void> {
  const { section } = desk.get();
  const svg = handOutOf(desk, results, chosenNow(), pricesNow()).svg();
  try {
    await fileSave(new Blob([svg], { type: "image/svg+xml" }), {
      fileName: fileNameOf(section.title, ".svg"),
      extensions: [".svg"],
      description: "Sheet as SVG",
    });
  } catch (error) {
    if (isAbort(error)) return;
    desk.say({
      text: `The SVG was not saved: ${error instanceof Error ? error.message : String(error)}`,
      tone: "refusal",
    });
  }
}
