/** The gravity pipes that carry water out of the vessels of a drawing. */
import type { PartId } from "../document/section.ts";
import type { PipeModel } from "../network/network.ts";
import { outletsOf } from "../solver/outlets.ts";
import type { Steady } from "../solver/steady.ts";

export interface Return {
  readonly pipe: PipeModel;
  readonly vessel: PartId;
  /** m along the pipe of the vessel's end: 0 or its length */
  readonly mouthAt: number;
}

export function returnsOf(state: Steady): readonly Return[] {
  const found: Return[] = [];
  for (const { body } of state.network.bodies.values()) {
    if (body.kind !== "vessel") continue;
    for (const outlet of outletsOf(state, body)) {
      if (outlet.kind !== "pipe" || outlet.pipe.shutAt.length > 0) continue;
      found.push({ pipe: outlet.pipe, vessel: body.id, mouthAt: outlet.way === 1 ? 0 : outlet.pipe.drawn });
    }
  }
  return found;
}
