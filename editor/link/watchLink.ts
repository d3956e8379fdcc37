/** Opens the drawing of the link that the page was called with, or is called with later. One that can not be read is
 * refused in words, and the drawing on the desk stays. */
import type { Desk } from "../state/desk.ts";
import { problemLine } from "../state/files/readDrawing.ts";
import { holdsDrawing, readFragment } from "./drawingLink.ts";
import { openOther } from "./openOther.ts";

export async function openLink(desk: Desk): Promise<void> {
  const { hash } = window.location;
  if (!holdsDrawing(hash)) return;
  const read = await readFragment(hash);
  // Gone from the address at once: a reload must not put the link's drawing over what was drawn since.
  window.history.replaceState(window.history.state, "", window.location.pathname + window.location.search);
  if (read.ok) return openOther(desk, read.value, `${read.value.title || "A drawing"}, from a link.`);
  const { text, problems } = read.error;
  desk.say({
    text: `${text} The drawing on the sheet is as it was.`,
    lines: problems.slice(0, 12).map(problemLine),
    tone: "refusal",
  });
}

export function watchLink(desk: Desk): void {
  window.addEventListener("hashchange", () => void openLink(desk));
}
