import { showQuantity } from "../quantity.ts";
import { type Given, line, noReadings, type Readings } from "./reading.ts";

export function spillwayReadings({ running, part, units }: Given<"spillway">): Readings {
  const r = running.spillways.get(part.id);
  if (!r) return noReadings;
  return {
    aside: "",
    lines: [
      line("Flow", showQuantity("flow", r.flow, units)),
      line("Water over the crest", showQuantity("length", r.head, units)),
    ],
    notes: [],
  };
}
