import { placeAt } from "../document/geometry.ts";
import type { PipeModel } from "../network/network.ts";
import { nameOf } from "../powerCut/words.ts";
import type { Steady } from "../solver/steady.ts";
import type { FaultKind } from "./faultKind.ts";
import { partedAt } from "./parted.ts";
import { isOverPlan, suppliesOf } from "./suppliesOf.ts";

/** A joint gives way at the line's lowest point over the ground, where the pressure is highest and most is lost. A line
 * that stands over ponds and vessels all along is left out: what parts there falls back into them. */
export const supplyParted: FaultKind = {
  code: "supplyParted",
  cases: ({ section, state }) =>
    suppliesOf(state).flatMap((pipe) => {
      const at = lowestOverGround(state, pipe);
      if (at === null) return [];
      const parted = partedAt(section, pipe.pipe, at);
      return [
        {
          title: `${nameOf(section, pipe.pipe.id)} parted at its lowest point outside the water, the pump running`,
          part: pipe.pipe.id,
          place: placeAt(pipe.line, at),
          section: parted.section,
          run: "pumped" as const,
          asFull: parted.asFull,
        },
      ];
    }),
};

/** m: how near to an end of the pipe it may part, and how finely its line is looked at */
const offEnds = 0.01;
const grain = 0.02;

function lowestOverGround({ network }: Steady, { line, drawn }: PipeModel): number | null {
  if (drawn < 3 * offEnds) return null;
  const bodies = [...network.bodies.values()].map(({ body }) => body);
  const pieces = Math.min(2000, Math.ceil(drawn / grain));
  let lowest: number | null = null;
  let level = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= pieces; k++) {
    const at = offEnds + ((drawn - 2 * offEnds) * k) / pieces;
    const place = placeAt(line, at);
    if (place[1] >= level - 1e-6 || bodies.some((body) => isOverPlan(body, place))) continue;
    level = place[1];
    lowest = at;
  }
  return lowest;
}
