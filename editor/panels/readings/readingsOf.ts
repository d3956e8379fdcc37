/** What the solver knows about one part, as lines for its slip and for the table: a file a kind. */
import type { Assessment, Part, Section } from "../../../hydraulics/index.ts";
import type { UnitSystem } from "../../sheet/units.ts";
import { pipeReadings } from "./pipe.ts";
import { pondReadings } from "./pond.ts";
import { pumpReadings } from "./pump.ts";
import { noReadings, type Readings } from "./reading.ts";
import { spillwayReadings } from "./spillway.ts";
import { checkValveReadings, valveReadings } from "./valve.ts";
import { ventReadings } from "./vent.ts";
import { vesselReadings } from "./vessel.ts";

export function readingsOf(section: Section, assessment: Assessment | null, part: Part, units: UnitSystem): Readings {
  if (!assessment) return noReadings;
  const { running } = assessment;
  if (!running.converged)
    return {
      ...noReadings,
      notes: ["The running state could not be found, so there are no figures. See the findings."],
    };
  const known = { section, assessment, running, units };
  switch (part.kind) {
    case "pond":
      return pondReadings({ ...known, part });
    case "vessel":
      return vesselReadings({ ...known, part });
    case "pump":
      return pumpReadings({ ...known, part });
    case "pipe":
      return pipeReadings({ ...known, part });
    case "valve":
      return valveReadings({ ...known, part });
    case "checkValve":
      return checkValveReadings({ ...known, part });
    case "vent":
      return ventReadings({ ...known, part });
    case "spillway":
      return spillwayReadings({ ...known, part });
    case "note":
      return noReadings;
    default:
      return part satisfies never;
  }
}
