/** A check valve at a pump's outlet. */
import type { CheckValve } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { withPart } from "./ampleVent.ts";
import { freshId, lastRank } from "./freshPart.ts";
import { linesOfPump } from "./linesOfPump.ts";
import type { Remedy } from "./remedy.ts";
import { along } from "./rounding.ts";

export const flapOnLine: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const pump = id === undefined ? undefined : section.parts.get(id);
  if (pump?.kind !== "pump") return;
  for (const { pipe, from, stretches } of linesOfPump(assessed.state, pump.id)) {
    const [first] = stretches;
    if (from.kind !== "pump" || from.pump !== pump.id || !first) continue;
    // Before the first tee, through which others may bring their water.
    const flap: CheckValve = {
      kind: "checkValve",
      id: freshId(section, "flap"),
      rank: lastRank(section),
      on: { pipe: pipe.id, at: along(first.end / 2) },
    };
    yield { label: `Put a check valve on ${called(section, pipe.id)}`, section: withPart(section, flap) };
  }
};
