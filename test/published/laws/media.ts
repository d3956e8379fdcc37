/** Packed beds by Ergun, their surface and voids. */
import { mediaBed } from "../../../hydraulics/elements/mediaBed.ts";
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import { ergun, lossPerMetre } from "../../../hydraulics/formulas/ergun.ts";
import { g } from "../../../hydraulics/formulas/gravity.ts";
import { porosityOf, surfacePerVolume } from "../../../hydraulics/formulas/wettedSurface.ts";
import { bisect } from "../../support/bisect.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const bed = ({ grain_m, porosity, viscosity_Pa_s, density_kg_m3 }: Numbers) => ({
  grain: grain_m,
  porosity,
  viscosity: viscosity_Pa_s,
  density: density_kg_m3,
});
/** m/s at which the linear term alone takes the whole head, as the source has it */
const viscousVelocity = (n: Numbers) => n.head_m / n.bed_length_m / ergun(bed(n)).perU;

export const mediaChecks: Checks = {
  "ergun-spheres": ({ grain_m, porosity, velocity_m_s, rho, mu }) =>
    rho * g * lossPerMetre(velocity_m_s, { grain: grain_m, porosity, viscosity: mu, density: rho }),
  "ergun-0.8mm": (n) =>
    n.density_kg_m3 *
    g *
    mediaBed
      .build({
        layers: [{ length: n.depth_m, grain: n.grain_m, porosity: n.porosity }],
        area: 2,
        clogging: 1,
        viscosity: n.viscosity_Pa_s,
        density: n.density_kg_m3,
      })
      .loss(2 * n.velocity_m_s),
  "bed-gravity-velocity": viscousVelocity,
  "bed-gravity-flow": (n) => viscousVelocity(n) * boreArea(n.pipe_bore_m),
  "bed-gravity-ergun": (n) => bisect(0, 1, (U) => lossPerMetre(U, bed(n)) - n.head_m / n.bed_length_m),
  // The bed lifts where the loss is its own weight under water; μ/(d·φ)² by the sphericity φ.
  "fluidising-velocity": (n) => {
    const { perU } = ergun({ ...bed(n), grain: n.grain_m * n.sphericity });
    const weight = ((1 - n.porosity) * (n.grain_density_kg_m3 - n.density_kg_m3)) / n.density_kg_m3;
    return weight / perU;
  },
  "bed-viscous-0.03in": (n) => n.head_per_depth / ergun(bed(n)).perU,
  "bed-inertial-0.03in": ({ velocity_m_s, grain_m, porosity, density_kg_m3 }) =>
    density_kg_m3 *
    g *
    ergun({ grain: grain_m, porosity, viscosity: 0, density: density_kg_m3 }).perU2 *
    velocity_m_s ** 2,
  "bed-porosity-962": ({ bulk_kg_m3, solid_kg_m3 }) => porosityOf(bulk_kg_m3, solid_kg_m3),
  "bed-surface-20mm": ({ grain_m, porosity }) => surfacePerVolume(grain_m, porosity),
  "bed-surface-25mm": ({ grain_m, porosity }) => surfacePerVolume(grain_m, porosity),
  // A fact of stone, not a law: 2,650 kg/m³ solid and about 1,600 kg/m³ loose (common practice, no source).
  "gravel-porosity": {
    ours: porosityOf(1600, 2650),
    because: "voids from common densities of loose gravel; the stone at hand decides, 0.35 to 0.45",
  },
};
