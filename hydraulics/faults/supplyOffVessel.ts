import { placeAt } from "../document/geometry.ts";
import type { PipeModel } from "../network/network.ts";
import { nameOf } from "../powerCut/words.ts";
import type { Steady } from "../solver/steady.ts";
import type { FaultKind } from "./faultKind.ts";
import { partedAt } from "./parted.ts";
import { endAtVessel, isOverPlan, suppliesOf } from "./suppliesOf.ts";

/** The supply comes off at the vessel: the pump goes on onto the ground, and what stands over the opening runs out. */
export const supplyOffVessel: FaultKind = {
  code: "supplyOffVessel",
  cases: ({ section, state }) =>
    suppliesOf(state).flatMap((pipe) => {
      const side = endAtVessel(state.network, pipe);
      const at = side ? lastOutside(state, pipe, side) : null;
      if (at === null) return [];
      const parted = partedAt(section, pipe.pipe, at);
      return [
        {
          title: `${nameOf(section, pipe.pipe.id)} parted at the vessel, the pump running`,
          part: pipe.pipe.id,
          place: placeAt(pipe.line, at),
          section: parted.section,
          run: "pumped" as const,
          asFull: parted.asFull,
        },
      ];
    }),
};

/** m off an end of the pipe, and how finely its line is looked at */
const offEnd = 0.01;
const grain = 0.02;

/** The place nearest to the vessel where the line is still outside: beside its wall, or over its rim. */
function lastOutside({ network }: Steady, pipe: PipeModel, side: "from" | "to"): number | null {
  const end = pipe[side];
  const body = end.kind === "body" ? network.bodies.get(end.opening.body)?.body : undefined;
  if (!body) return null;
  for (let back = offEnd; back < pipe.drawn - offEnd; back += grain) {
    const at = side === "to" ? pipe.drawn - back : back;
    const place = placeAt(pipe.line, at);
    if (!isOverPlan(body, place) || place[1] >= body.rimLevel) return at;
  }
  return null;
}
