/** Crests and short siphons. Lines with friction are solved as networks, in networks.ts. */
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import { g } from "../../../hydraulics/formulas/gravity.ts";
import { crestPressureHead, fullLineVelocity } from "../../../hydraulics/formulas/siphon.ts";
import { metresOfWater } from "../../../hydraulics/formulas/units.ts";
import type { Checks } from "../hold.ts";

export const siphonChecks: Checks = {
  "siphon-5mm-time": ({ bore_m, fall_m, volume_m3 }) => volume_m3 / (boreArea(bore_m) * fullLineVelocity(fall_m, 1)),
  // Levels from the outlet: the petrol stands `fall` above it.
  "siphon-5mm-crest": ({ crest_above_outlet_m, fall_m, density_kg_m3, atmosphere_Pa }) =>
    atmosphere_Pa + density_kg_m3 * g * crestPressureHead(fall_m, crest_above_outlet_m, fullLineVelocity(fall_m, 1), 0),
  "siphon-highest-crest": ({ level_m, outlet_m, vapour_pressure_Pa, atmosphere_Pa }) => {
    const boiling = metresOfWater(vapour_pressure_Pa - atmosphere_Pa, 999);
    return crestPressureHead(level_m, 0, fullLineVelocity(level_m - outlet_m, 1), 0) - boiling;
  },
  "siphon-30mm": ({ bore_m, fall_m, g_m_s2 }) => boreArea(bore_m) * fullLineVelocity(fall_m, 1, g_m_s2),
};
