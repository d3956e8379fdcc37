/** A pump beside the water whose suction line draws from a body that does not reach up to its mouth. */
import type { PartId, Pump } from "../../document/section.ts";
import { leadsTo } from "../../network/chains.ts";
import type { Steady } from "../steady.ts";

export interface BareSuction {
  readonly pipe: PartId;
  readonly body: PartId;
  readonly edge: number;
  readonly level: number;
}

/** Null where one of its lines has water, and where none comes from a body alone, over joints or not. */
export function bareSuction(state: Steady, pump: Pump): BareSuction | null {
  let bare: BareSuction | null = null;
  for (const line of state.network.pipes.values()) {
    if (line.to.kind !== "pump" || line.to.pump !== pump.id) continue;
    const { pipe, side } = leadsTo(state.network, { pipe: line, side: "to" });
    const end = pipe[side];
    const model = end.kind === "body" ? state.network.bodies.get(end.opening.body) : undefined;
    if (end.kind !== "body" || !model) return null;
    const level = state.system.head[model.surface] as number;
    if (level > end.opening.edge + 1e-6) return null;
    bare = { pipe: pipe.pipe.id, body: end.opening.body, edge: end.opening.edge, level };
  }
  return bare;
}
