/** The full lines that end in a body, each with its mouth there and its highest point, however many pieces it is drawn
 * in: up to a joint of three pipes or more. */

import type { PartId } from "../document/section.ts";
import { piecesOf } from "../network/chains.ts";
import type { Opening, PipeModel, VentModel } from "../network/network.ts";
import { crestOf } from "../network/pipeModel.ts";
import type { Steady } from "../solver/steady.ts";

export interface LineOf {
  /** the piece that ends there */
  readonly pipe: PipeModel;
  /** all of its pieces, that one among them */
  readonly pieces: readonly PipeModel[];
  readonly opening: Opening;
  readonly crest: number;
  /** m³/s into the body */
  readonly into: number;
  /** drawn to end there */
  readonly leadsTo: boolean;
}

export function linesOf(state: Steady, body: PartId): readonly LineOf[] {
  const found: LineOf[] = [];
  for (const pipe of state.network.pipes.values()) {
    if (pipe.runs !== "full") continue;
    for (const side of ["from", "to"] as const) {
      const end = pipe[side];
      if (end.kind !== "body" || end.opening.body !== body) continue;
      const pieces = piecesOf(state.network, pipe);
      const mouth = side === "from" ? pipe.mouthFrom : pipe.mouthTo;
      found.push({
        pipe,
        pieces,
        opening: end.opening,
        crest: Math.max(...pieces.map(crestOf)),
        into: -(mouth?.Q ?? 0),
        leadsTo: side === "to",
      });
    }
  }
  return found;
}

/** The vents on any of its pieces. */
export const ventsOn = ({ network }: Steady, { pieces }: Pick<LineOf, "pieces">): readonly VentModel[] =>
  [...network.vents.values()].filter((vent) => pieces.some(({ pipe }) => pipe.id === vent.pipe));
