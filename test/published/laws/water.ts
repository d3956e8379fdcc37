/** Water by the IAPWS correlations. */
import { vapourPressure, waterDensity, waterViscosity } from "../../../hydraulics/formulas/water.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const density = ({ temperature_C }: Numbers) => waterDensity(temperature_C);
const viscosity = ({ temperature_C }: Numbers) => waterViscosity(temperature_C);
const milliPascal = (n: Numbers) => 1000 * viscosity(n);
const vapour = ({ temperature_C }: Numbers) => vapourPressure(temperature_C);

export const waterChecks: Checks = {
  "water-density-0": density,
  "water-viscosity-0": milliPascal,
  "water-density-10": density,
  "water-viscosity-10": milliPascal,
  "water-density-15": density,
  "water-viscosity-15": milliPascal,
  "water-density-20": density,
  "water-viscosity-20": milliPascal,
  "water-density-30": density,
  "water-viscosity-30": milliPascal,
  "water-density-40": density,
  "water-viscosity-40": milliPascal,
  "water-viscosity-0c": viscosity,
  "water-density-0c": density,
  "water-vapour-pressure-0c": vapour,
  "water-density-10c": density,
  "water-viscosity-20c": viscosity,
  "water-vapour-pressure-20c": vapour,
  "water-density-30c": density,
  "water-vapour-pressure-30c": vapour,
  "water-viscosity-40c": viscosity,
  "water-density-40c": density,
  "iapws-density-20": density,
  "iapws-viscosity-20": viscosity,
};
