/** Tanks by their closed forms, the yardstick of the simulation;
 * networks.test.ts runs the simulation itself against some. */
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import {
  emptyingTime,
  emptyingTimeLaminar,
  emptyingTimeWithInflow,
  joinedPlan,
} from "../../../hydraulics/formulas/tankEmptying.ts";
import type { Lists, Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const hole = ({ tankArea_m2, holeArea_m2, Cd, from_m, to_m }: Numbers) =>
  emptyingTime(tankArea_m2, { area: holeArea_m2, Cd }, from_m, to_m);
const joined = ({ area_1_m2, area_2_m2, orifice_area_m2, Cd, difference_1_m, difference_2_m }: Numbers) =>
  emptyingTime(joinedPlan(area_1_m2, area_2_m2), { area: orifice_area_m2, Cd }, difference_1_m, difference_2_m);

export const tankEmptyingChecks: Checks = {
  "drain-4ft-tank": hole,
  "two-tanks-orifice": ({ holeArea_m2, Cd, from_m, to_m }: Numbers, { tankArea_m2: [a = 0, b = 0] }: Lists) =>
    emptyingTime(joinedPlan(a, b), { area: holeArea_m2, Cd }, from_m, to_m),
  "drain-1m3-hole": hole,
  "drain-laminar-pipe": ({ tankArea_m2, length_m, bore_m, viscosity_Pa_s, density_kg_m3, from_m, volume_m3 }) =>
    emptyingTimeLaminar(
      tankArea_m2,
      { L: length_m, D: bore_m, viscosity: viscosity_Pa_s / density_kg_m3 },
      from_m,
      from_m - volume_m3 / tankArea_m2,
    ),
  "drain-100mm-hole-part": hole,
  "drain-100mm-hole-all": hole,
  "tank-1m3-20mm": ({ tank_diameter_m, orifice_m, Cd, level_1_m, level_2_m }) =>
    emptyingTime(boreArea(tank_diameter_m), { area: boreArea(orifice_m), Cd }, level_1_m, level_2_m),
  "tank-4ft-5in2": ({ tank_diameter_m, orifice_area_m2, Cd, level_1_m, level_2_m }) =>
    emptyingTime(boreArea(tank_diameter_m), { area: orifice_area_m2, Cd }, level_1_m, level_2_m),
  // 25 m³ lower the first tank and raise the second: the difference falls by both.
  "two-tanks-25m3": ({ area_1_m2, area_2_m2, orifice_m, Cd, difference_1_m, volume_m3 }) =>
    emptyingTime(
      joinedPlan(area_1_m2, area_2_m2),
      { area: boreArea(orifice_m), Cd },
      difference_1_m,
      difference_1_m - volume_m3 / area_1_m2 - volume_m3 / area_2_m2,
    ),
  "two-tanks-72-24ft2": joined,
  "two-tanks-1000ft2": joined,
  "tank-inflow-outflow": ({ area_m2, inflow_m3_s, outflow_at_1p5m_m3_s, level_1_m, level_2_m }) =>
    emptyingTimeWithInflow(area_m2, outflow_at_1p5m_m3_s / Math.sqrt(level_1_m), inflow_m3_s, level_1_m, level_2_m),
  "orifice-cd-2in": ({ tank_diameter_m, orifice_m, level_1_m, level_2_m, time_s }) =>
    emptyingTime(boreArea(tank_diameter_m), { area: boreArea(orifice_m), Cd: 1 }, level_1_m, level_2_m) / time_s,
};
