/** A pump beside the water whose suction line draws from a body that does not reach up to its mouth. */
import type { PartId, Pump } from "../document/section.ts";
import type { Steady } from "../solver/steady.ts";

export interface BareSuction {
  readonly pipe: PartId;
  readonly body: PartId;
  readonly edge: number;
  readonly level: number;
}

/** Null where one of its lines has water, and where none comes straight from a body. */
export function bareSuction(state: Steady, pump: Pump): BareSuction | null {
  let bare: BareSuction | null = null;
  for (const { pipe, from, to } of state.network.pipes.values()) {
    if (to.kind !== "pump" || to.pump !== pump.id) continue;
    const model = from.kind === "body" ? state.network.bodies.get(from.opening.body) : undefined;
    if (from.kind !== "body" || !model) return null;
    const level = state.system.head[model.surface] as number;
    if (level > from.opening.edge + 1e-6) return null;
    bare = { pipe: pipe.id, body: from.opening.body, edge: from.opening.edge, level };
  }
  return bare;
}
