import { fileSave } from "browser-fs-access";
import { assess } from "../../hydraulics/index.ts";
import type { Desk } from "../state/desk.ts";
import { fileNameOf } from "../state/files/fileName.ts";
import { isAbort } from "../state/files/openFile.ts";
import { sheetSvg } from "../svg/write.ts";
import type { Results } from "../worker/results.ts";

/** Hands out the sheet as an SVG: A4 lying, in the day's colours, as they print best. */
export async function saveSvg(desk: Desk, results: Results): Promise<void> {
  const { section, view } = desk.get();
  const result = results.get();
  // Pressed before the worker has answered, the figures are found here: a sheet never goes out without them.
  const solved = result?.section === section && result.depth !== "quick" ? result.assessment : null;
  const { running, powerCut, findings } = solved ?? assess(section);
  const date = new Date().toISOString().slice(0, 10);
  const svg = sheetSvg({ section, running, powerCut, findings, system: view.units, paper: "A4", theme: "paper", date });
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
