/** A pipe that ends in the air and loses water: a flush valve on it, shut. */
import type { Valve } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { withPart } from "./ampleVent.ts";
import { freshId, lastRank } from "./freshPart.ts";
import type { Remedy } from "./remedy.ts";
import { along } from "./rounding.ts";

export const shutEnd: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const model = id === undefined ? undefined : assessed.state.network.pipes.get(id);
  if (!model || model.valves.length > 0) return;
  const valve: Valve = {
    kind: "valve",
    id: freshId(section, "flush-valve"),
    rank: lastRank(section),
    type: "ball",
    // Near the end that is in the air, where a hand reaches it.
    on: { pipe: model.pipe.id, at: along(model.drawn * (model.to.kind === "air" ? 0.9 : 0.1)) },
    open: 0,
    role: "flush",
  };
  yield { label: `Put a flush valve on ${called(section, model.pipe.id)}, shut`, section: withPart(section, valve) };
};
