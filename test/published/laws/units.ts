/** Factors of units. */
import {
  cubicFootPerSecond,
  foot,
  footOfWater,
  gallon,
  gallonPerHour,
  gallonPerMinute,
  inch,
  metresOfWater,
  psi,
} from "../../../hydraulics/formulas/units.ts";
import type { Checks } from "../hold.ts";

export const unitChecks: Checks = {
  "unit-us-gallon-per-minute": () => gallonPerMinute,
  "unit-us-gallon-per-hour": () => gallonPerHour,
  "unit-foot": () => foot,
  "unit-inch": () => inch,
  "unit-psi": () => metresOfWater(psi, 999.1),
  "unit-gpm": () => gallonPerMinute,
  "unit-ft": () => foot,
  "unit-in": () => inch,
  "unit-weir": () => foot ** 0.5,
  "unit-gallon": () => gallon,
  "unit-cfs": () => cubicFootPerSecond,
  "unit-fth2o": () => footOfWater,
};
