import type { Desk } from "../state/desk.ts";

/** A part can not stand everywhere: an intake keeps to its pond, a breather's open end over its tee. What was typed and is
 * not what came of it is said, or a slip of the hand would look like an answer.
 * @param show with the unit that is shown */
export function tellSettled(
  desk: Desk,
  {
    label,
    wanted,
    kept,
    show,
  }: { label: string; wanted: number; kept: number | undefined; show(value: number): string },
): void {
  if (kept === undefined || show(kept) === show(wanted)) return;
  desk.say({
    text: `${label}: ${show(wanted)} lies outside what it belongs to, so it is ${show(kept)} now. Undo takes it back.`,
    tone: "plain",
  });
}
