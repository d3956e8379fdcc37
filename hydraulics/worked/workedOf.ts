/** How the figures of a part follow: formula, numbers, source. One file a kind of part. */
import type { Part, Section } from "../document/section.ts";
import type { RunningState } from "../solver/running.ts";
import { bedWorked } from "./bed.ts";
import { pipeWorked } from "./pipe.ts";
import { pumpWorked } from "./pump.ts";
import { spillwayWorked } from "./spillway.ts";
import { ventWorked } from "./vent.ts";
import { vesselWorked } from "./vessel.ts";
import type { Worked } from "./worked.ts";

export function workedOf(section: Section, part: Part, running: RunningState): readonly Worked[] {
  switch (part.kind) {
    case "pipe": {
      const reading = running.pipes.get(part.id);
      return reading ? pipeWorked(section, part, reading) : [];
    }
    case "pump": {
      const reading = running.pumps.get(part.id);
      return reading ? pumpWorked(section, part, reading) : [];
    }
    case "vessel": {
      const reading = running.vessels.get(part.id);
      return reading ? [...vesselWorked(section, part, reading), ...bedWorked(section, part, reading, running)] : [];
    }
    case "vent": {
      const reading = running.vents.get(part.id);
      return reading ? ventWorked(part, reading) : [];
    }
    case "spillway": {
      const reading = running.spillways.get(part.id);
      return reading ? spillwayWorked(part, reading) : [];
    }
    default:
      return [];
  }
}
