import { ventEnd, ventOpen } from "../document/defaults.ts";
import type { Vent } from "../document/section.ts";
import type { VentReading } from "../solver/running.ts";
import { printed as p, type Worked } from "./worked.ts";

/** What it spills; the air it can draw is rated at a suction that the slip does not show. */
export function ventWorked(vent: Vent, reading: VentReading): readonly Worked[] {
  if (!(reading.spill > 0)) return [];
  const riser = Math.max(0, ventEnd(vent, reading.teeLevel) - reading.teeLevel);
  return [
    {
      what: "Spills",
      law: "Q = (π·d²/4) / √(1/(0.6·open)² + 0.03·riser/d) · √(2g·(y − end))",
      expression: `3.14159 · ${p(vent.bore)}^2 / 4 / √(1 / (0.6 · ${p(ventOpen(vent))})^2 + 0.03 · ${p(riser)} / ${p(vent.bore)}) · √(2 · 9.80665 · ${p(reading.pressureHead - riser)})`,
      result: reading.spill,
      unit: "m³/s",
      source: "orifice of Cd 0.6 with its riser's friction (f 0.03)",
    },
  ];
}
