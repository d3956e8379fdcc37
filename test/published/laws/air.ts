/** Air: its density, and how much of it a pressure drives through an opening, by the law of our vents. */
import { airDensityAt } from "../../../hydraulics/formulas/air.ts";
import { ventAboveRim } from "../../../hydraulics/formulas/airGap.ts";
import { selfVentingLimit } from "../../../hydraulics/formulas/froude.ts";
import { metresOfWater } from "../../../hydraulics/formulas/units.ts";
import { ventAirFlow } from "../../../hydraulics/formulas/ventPassage.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const density = ({ temperature_C, pressure_Pa }: Numbers) => airDensityAt(temperature_C, pressure_Pa);
/** m³/s through an area that counts as 1 m² of jet: the velocity itself. The law wants suction in metres of water. */
const jet = (pressure: number, airDensity: number) => ventAirFlow(metresOfWater(pressure, 1000), 1, 1000, airDensity);
const gap = ({ holeArea_m2, Cd, pressure_drop_Pa, density_kg_m3 }: Numbers) =>
  Cd * holeArea_m2 * jet(pressure_drop_Pa, density_kg_m3);
/** The sheets' 0.83·A·√Δp is Cd 0.643 at 1.2 kg/m³; our vents have Cd 0.6, 7 % less. */
const sheet = ({ area_m2, pressure_Pa }: Numbers) => 0.643 * area_m2 * jet(pressure_Pa, 1.2);

export const airChecks: Checks = {
  "air-density-0c": density,
  "air-density-15c": density,
  "air-density-20c": density,
  "air-nozzle-69Pa": ({ pressure_drop_Pa, density_kg_m3 }) => jet(pressure_drop_Pa, density_kg_m3),
  "air-gap-2_5Pa": gap,
  "air-gap-25Pa": gap,
  "air-gap-45Pa": gap,
  "air-0.01psi": ({ pressure_Pa, temperature_K, atmosphere_Pa }) =>
    jet(pressure_Pa, airDensityAt(temperature_K - 273.15, atmosphere_Pa)),
  "air-0.05psi": {
    law: ({ pressure_Pa, density_kg_m3 }) => jet(pressure_Pa, density_kg_m3),
    off: -0.00216,
    because:
      "the bracket that stands for the air's expansion, 1 − 0.05·s, takes 0.18 % at this pressure; the source, at so little, leaves expansion out",
  },
  "air-400cm2-10pa": sheet,
  "air-400cm2-45pa": sheet,
  "air-4005": ({ pressure_Pa, density_kg_m3 }) => jet(pressure_Pa, density_kg_m3),
  "vent-avb-height": { ours: ventAboveRim, because: "6 in, rounded to 150 mm" },
  "vent-old-code-height": {
    law: () => ventAboveRim,
    off: -0.672,
    because: "one city's older code asks for 18 in; the wider habit is 6 in, and ours is an advice, not a code",
  },
  "froude-self-venting": { ours: selfVentingLimit },
  "froude-self-venting-b": { ours: selfVentingLimit },
};
