/** The full lines that end in a body, each with its mouth there and the highest point of its own pipe. */

import type { PartId } from "../document/section.ts";
import type { Opening, PipeModel } from "../network/network.ts";
import { crestOf } from "../network/pipeModel.ts";
import type { Steady } from "../solver/steady.ts";

export interface LineOf {
  readonly pipe: PipeModel;
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
    const crest = crestOf(pipe);
    if (pipe.from.kind === "body" && pipe.from.opening.body === body) {
      found.push({ pipe, opening: pipe.from.opening, crest, into: -(pipe.mouthFrom?.Q ?? 0), leadsTo: false });
    }
    if (pipe.to.kind === "body" && pipe.to.opening.body === body) {
      found.push({ pipe, opening: pipe.to.opening, crest, into: -(pipe.mouthTo?.Q ?? 0), leadsTo: true });
    }
  }
  return found;
}
