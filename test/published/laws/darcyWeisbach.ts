/** Friction factors, laminar and turbulent losses, and the inverse questions, by our element. */
import { darcyWeisbach, frictionFactor } from "../../../hydraulics/elements/darcyWeisbach.ts";
import type { Loss } from "../../../hydraulics/elements/element.ts";
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import { colebrook } from "../../../hydraulics/formulas/colebrook.ts";
import { g } from "../../../hydraulics/formulas/gravity.ts";
import { hydraulicPower } from "../../../hydraulics/formulas/hydraulicPower.ts";
import { reynolds } from "../../../hydraulics/formulas/reynolds.ts";
import { kinematicViscosity } from "../../../hydraulics/formulas/water.ts";
import { bisect } from "../../support/bisect.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const pipe = ({ length_m, bore_m, roughness_m, viscosity_m2_s }: Numbers): Loss =>
  darcyWeisbach.build({ L: length_m, D: bore_m, roughness: roughness_m, viscosity: viscosity_m2_s });
/** m³/s at which a law loses a head */
const flowAt = (loss: Loss, head: number) => bisect(0, 10, (Q) => loss.loss(Q) - head);
const flowForLoss = (n: Numbers) => flowAt(pipe(n), n.loss_m);
/** m of loss where the entry gives velocity and dynamic viscosity; smooth unless it says otherwise */
const lossAtVelocity = (n: Numbers, roughness = 0) =>
  darcyWeisbach
    .build({ L: n.length_m, D: n.bore_m, roughness, viscosity: n.viscosity_Pa_s / n.density_kg_m3 })
    .loss(n.velocity_m_s * boreArea(n.bore_m));
const dropAtVelocity = (n: Numbers, roughness = 0) => n.density_kg_m3 * g * lossAtVelocity(n, roughness);

export const darcyWeisbachChecks: Checks = {
  "crane-7-1-reynolds": ({ flow_m3_s, bore_m, temperature_C }) =>
    reynolds(flow_m3_s, bore_m, kinematicViscosity(temperature_C)),
  "crane-7-1-friction-factor": ({ flow_m3_s, bore_m, temperature_C, roughness_m }) =>
    frictionFactor(reynolds(flow_m3_s, bore_m, kinematicViscosity(temperature_C)), roughness_m / bore_m),
  "galvanised-100mm-flow": flowForLoss,
  "dw-f-1.036e6": ({ reynolds: Re, roughness_m, bore_m }) => colebrook(Re, roughness_m / bore_m),
  "dw-loss-500mm": (n) => pipe(n).loss(n.flow_m3_s),
  "dw-flow-500mm": flowForLoss,
  "lam-3mm-loss": (n) => lossAtVelocity(n),
  "lam-3mm-power": (n) => hydraulicPower(n.velocity_m_s * boreArea(n.bore_m), lossAtVelocity(n), n.density_kg_m3),
  "dw-100mm-flow": flowForLoss,
  "dw-bore-for-85l-s": ({ flow_m3_s, loss_m, length_m, roughness_m, viscosity_m2_s }) =>
    bisect(
      0.01,
      2,
      (D) =>
        loss_m -
        darcyWeisbach.build({ L: length_m, D, roughness: roughness_m, viscosity: viscosity_m2_s }).loss(flow_m3_s),
    ),
  "lam-60mm-re1000": (n) => dropAtVelocity(n),
  "dw-60mm-smooth-re10000": (n) => dropAtVelocity(n, n.roughness_m),
  "dw-60mm-smooth-re100000": (n) => dropAtVelocity(n, n.roughness_m),
  "parallel-three-pipes-1": flowForLoss,
  "parallel-three-pipes-2": flowForLoss,
  "parallel-three-pipes-3": flowForLoss,
  "lam-oil-slope": ({ flow_m3_s, bore_m, viscosity_m2_s, length_m }) =>
    darcyWeisbach.build({ L: length_m, D: bore_m, roughness: 0, viscosity: viscosity_m2_s }).loss(flow_m3_s),
  "lam-oil-re": ({ flow_m3_s, bore_m, viscosity_m2_s }) => reynolds(flow_m3_s, bore_m, viscosity_m2_s),
  // Density cancels in laminar flow: ρ·g·h with ν = μ/ρ.
  "lam-oil-50cp": ({ flow_m3_s, bore_m, viscosity_Pa_s, length_m }) =>
    900 *
    g *
    darcyWeisbach.build({ L: length_m, D: bore_m, roughness: 0, viscosity: viscosity_Pa_s / 900 }).loss(flow_m3_s),
  "dw-f-1e5-0002": ({ reynolds: Re, relative_roughness }) => frictionFactor(Re, relative_roughness),
  "dw-colebrook-1e5-1e-4": ({ reynolds: Re, relative_roughness }) => colebrook(Re, relative_roughness),
};
