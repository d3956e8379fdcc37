/** The levels that a power cut starts from: ponds as given, vessels as found. */
import type { PartId } from "../document/section.ts";
import type { Steady } from "../solver/steady.ts";

export const startLevelsOf = (state: Steady): ReadonlyMap<PartId, number> =>
  new Map(
    [...state.network.bodies].map(([id, { surface, body }]) => [
      id,
      Math.min(body.kind === "vessel" ? body.rimLevel : Number.POSITIVE_INFINITY, state.system.head[surface] as number),
    ]),
  );
