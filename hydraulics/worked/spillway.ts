import { crestKind } from "../document/defaults.ts";
import type { Spillway } from "../document/section.ts";
import { weirFlow } from "../formulas/weir.ts";
import type { SpillwayReading } from "../solver/running.ts";
import { printed as p, type Worked } from "./worked.ts";

/** A sill that falls free; a drowned one counts its head over the water below, and nothing is said here. */
export function spillwayWorked(spillway: Spillway, reading: SpillwayReading): readonly Worked[] {
  if (!(reading.flow > 0)) return [];
  const broad = crestKind(spillway) === "broad";
  const free = weirFlow(reading.head, spillway.width, crestKind(spillway));
  if (Math.abs(free - reading.flow) > 1e-4 * reading.flow) return [];
  return [
    {
      what: "Flow over the sill",
      law: broad ? "Q = 1.705·b·h^1.5" : "Q = Cd·(2/3)·√(2g)·b·h^1.5",
      expression: broad
        ? `1.705 · ${p(spillway.width)} · ${p(reading.head)}^1.5`
        : `0.6 · 2 / 3 · √(2 · 9.80665) · ${p(spillway.width)} · ${p(reading.head)}^1.5`,
      result: reading.flow,
      unit: "m³/s",
      source: broad ? "broad-crested weir" : "sharp-crested weir, Cd 0.6",
    },
  ];
}
