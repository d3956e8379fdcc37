/** The water of a drawing, at its temperature. */
import { siteOf } from "../../document/defaults.ts";
import type { Section } from "../../document/section.ts";
import { kinematicViscosity, waterDensity, waterViscosity } from "../../formulas/water.ts";

export interface Fluid {
  readonly density: number;
  readonly kinematic: number;
  readonly dynamic: number;
  readonly temperature: number;
}

export function fluidOf(section: Section): Fluid {
  const temperature = siteOf(section).waterTemperature;
  return {
    temperature,
    density: waterDensity(temperature),
    kinematic: kinematicViscosity(temperature),
    dynamic: waterViscosity(temperature),
  };
}
