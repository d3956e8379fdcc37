/** Throttles on a pump's line opened: the shut ones first, then all of them fully. */
import { valveOpen, valveRole } from "../document/defaults.ts";
import type { Part, PartId, Valve } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { linesOfPump } from "./linesOfPump.ts";
import type { Remedy } from "./remedy.ts";

export const openThrottle: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  if (id === undefined) return;
  const valves = linesOfPump(assessed.state, id)
    .flatMap((pipe) => pipe.valves.map(({ valve }) => valve))
    .filter((valve) => valveRole(valve) === "throttle" && valveOpen(valve) < 1);
  const shut = valves.filter((valve) => valveOpen(valve) === 0);
  for (const some of [shut, valves]) {
    if (some.length === 0) continue;
    const parts = new Map<PartId, Part>(section.parts);
    for (const valve of some) parts.set(valve.id, fullyOpen(valve));
    yield {
      label: `Open ${some.map((valve) => called(section, valve.id)).join(" and ")}`,
      section: { ...section, parts },
    };
  }
};

const fullyOpen = (valve: Valve): Valve => ({ ...valve, open: 1 });
