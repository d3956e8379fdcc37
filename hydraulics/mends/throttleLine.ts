/** A pump's line throttled: by the throttle that stands on it, or by a new ball valve near the pump. */
import { valveOpen, valveRole } from "../document/defaults.ts";
import type { Valve } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { withPart } from "./ampleVent.ts";
import { freshId, lastRank } from "./freshPart.ts";
import { linesOfPump } from "./linesOfPump.ts";
import type { Remedy } from "./remedy.ts";
import { along } from "./rounding.ts";

/** of a ball valve, tried in turn */
const openings = [0.67, 0.55, 0.45, 0.38];

export const throttleLine: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const pump = id === undefined ? undefined : section.parts.get(id);
  if (pump?.kind !== "pump") return;
  const lines = linesOfPump(assessed.state, pump.id);
  const own = lines
    .flatMap((line) => line.valves.map(({ valve }) => valve))
    .find((valve) => valveRole(valve) === "throttle" && valveOpen(valve) > 0);
  const outlet = lines.find(({ from }) => from.kind === "pump" && from.pump === pump.id);
  for (const open of openings) {
    if (own) {
      if (open < valveOpen(own))
        yield {
          label: `Close ${called(section, own.id)} to ${Math.round(open * 100)} % open`,
          section: withPart(section, { ...own, open }),
        };
      continue;
    }
    if (!outlet) return;
    const at = along(outlet.drawn * 0.25);
    const valve: Valve = {
      kind: "valve",
      id: freshId(section, "throttle"),
      rank: lastRank(section),
      type: "ball",
      on: { pipe: outlet.pipe.id, at },
      open,
      role: "throttle",
    };
    yield {
      label: `Put a ball valve on ${called(section, outlet.pipe.id)}, ${Math.round(open * 100)} % open`,
      section: withPart(section, valve),
    };
  }
};
