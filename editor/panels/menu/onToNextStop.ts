import type { Desk } from "../../state/desk.ts";
import { inOrder } from "../../state/inOrder.ts";

/** Takes parts away, and where the focus is on a part's stop that goes with them, or in its slip, it comes to the next stop
 * that stays, else to the one before: not to the page, from where Tab begins anew. */
export function onToNextStop(desk: Desk, takeAway: () => void): void {
  const stops = [...document.querySelectorAll<HTMLElement>(".part-list button")];
  const { section: before, view } = desk.get();
  const parts = inOrder(before);
  const here = document.activeElement?.closest("#slip")
    ? parts.findIndex(({ id }) => view.selection.has(id))
    : stops.indexOf(document.activeElement as HTMLElement);
  takeAway();
  const { section } = desk.get();
  const staying = stops.map((stop, index) => {
    const part = parts[index];
    return part && section.parts.has(part.id) ? stop : null;
  });
  if (here < 0 || staying[here]) return;
  const next =
    staying.slice(here).find((stop) => stop !== null) ?? staying.slice(0, here).findLast((stop) => stop !== null);
  // Coming to a stop chooses its part.
  next?.focus();
}
