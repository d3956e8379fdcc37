import type { Pasted } from "../../state/actions/pasteParts.ts";
import type { Desk } from "../../state/desk.ts";

/** Puts copies on the sheet, chosen, and says what of them has no place there. */
export function setDown(desk: Desk, { changed, ids, leftOut }: Pasted): void {
  if (!desk.apply(changed) || !changed.ok) return;
  desk.choose(ids);
  if (leftOut !== null) desk.say({ text: leftOut, tone: "plain" });
}
