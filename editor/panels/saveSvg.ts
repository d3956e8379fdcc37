import type { Desk } from "../state/desk.ts";
import type { Results } from "../worker/results.ts";

/** Hands out the sheet as an SVG. The writer is not there yet: said, not hidden. */
export async function saveSvg(desk: Desk, _results: Results): Promise<void> {
  desk.say({ text: "The SVG can not be written yet.", tone: "refusal" });
}
