import { isStuckOpen, valveOpen } from "../../../hydraulics/index.ts";
import { showQuantity } from "../quantity.ts";
import { type Given, line, type Readings, whole } from "./reading.ts";

export function valveReadings({ running, part, units }: Given<"valve">): Readings {
  const open = valveOpen(part);
  const through = running.pipes.get(part.on.pipe);
  return {
    aside: open === 0 ? "shut" : open === 1 ? "open" : `open ${whole(open * 100)} %`,
    lines: through ? [line("Flow in its pipe", showQuantity("flow", through.flow, units))] : [],
    notes: [],
  };
}

export function checkValveReadings({ running, part, units }: Given<"checkValve">): Readings {
  const through = running.pipes.get(part.on.pipe);
  return {
    aside: isStuckOpen(part) ? "stuck open" : "sound",
    lines: through ? [line("Flow in its pipe", showQuantity("flow", through.flow, units))] : [],
    notes: ["A moving part: debris can hold it open. The verdict says so where it is what holds the water."],
  };
}
