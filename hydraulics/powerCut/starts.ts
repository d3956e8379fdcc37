/** The two starts of a drawing: the first, every vessel empty, and the one after a power cut. */
import type { PartId, Section } from "../document/section.ts";
import type { Steady } from "../solver/steady.ts";
import type { PowerCut } from "./powerCut.ts";
import { type StartUp, startUp } from "./startUp.ts";

export interface Starts {
  /** every vessel empty, its media dry, the ponds as drawn */
  readonly startUp: StartUp;
  /** from where the power cut left the water; null where the cut could not be followed to its end */
  readonly restart: StartUp | null;
}

/** Each takes about as long as a power cut. Null where there is no running state that a start could lead to. */
export function startsOf(section: Section, state: Steady, cut: PowerCut): Starts | null {
  const first = startUp(section, { state });
  if (!first) return null;
  return { startUp: first, restart: cut.failedAt ? null : startUp(section, { state, levels: levelsAfter(cut) }) };
}

const levelsAfter = ({ vessels, ponds }: PowerCut): ReadonlyMap<PartId, number> =>
  new Map([...vessels, ...ponds].map(([id, { finalLevel }]) => [id, finalLevel]));
