/** Events as they are told: by their time, and of one time what the pumps do before what follows from it. */
import type { CutEvent, EventCode } from "./powerCut.ts";

const firstOfAll: ReadonlySet<EventCode> = new Set<EventCode>(["pumpStops", "pumpStarts"]);
const rank = ({ code }: CutEvent): number => (firstOfAll.has(code) ? 0 : code === "settled" ? 2 : 1);

export const inOrder = (events: readonly CutEvent[]): CutEvent[] =>
  events.toSorted((a, b) => a.time - b.time || rank(a) - rank(b));
