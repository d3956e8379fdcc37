/** Stokes' law, downward and as the smallest grain that an upward stream leaves behind. */
import { settlingDiameter, settlingVelocity } from "../../../hydraulics/formulas/stokes.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

/** The velocity that carries a grain: asked backwards through `settlingDiameter`, as the program uses it. */
const carried = ({ grain_m, grain_density_kg_m3, density_kg_m3, viscosity_Pa_s }: Numbers) => {
  const water = { viscosity: viscosity_Pa_s, density: density_kg_m3 };
  const fall = settlingVelocity(grain_m, water, grain_density_kg_m3);
  const back = settlingDiameter(fall, water, grain_density_kg_m3) / grain_m;
  return fall * back;
};
const inFluid = ({ diameter_m, particle_kg_m3, fluid_kg_m3, viscosity_Pa_s }: Numbers) =>
  settlingVelocity(diameter_m, { viscosity: viscosity_Pa_s, density: fluid_kg_m3 }, particle_kg_m3);

export const stokesChecks: Checks = {
  "stokes-galena": carried,
  "stokes-limestone": carried,
  "stokes-1mm-1100": ({ diameter_m, particle_kg_m3, liquid_kg_m3, viscosity_Pa_s }) =>
    settlingVelocity(diameter_m, { viscosity: viscosity_Pa_s, density: liquid_kg_m3 }, particle_kg_m3),
  "stokes-dust-air": inFluid,
  "stokes-oil-drop-air": inFluid,
};
