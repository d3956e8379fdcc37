/** Loss per metre of packed stone at the superficial velocity U.
 *     dh/dz = 150·μ·(1−ε)²/(ε³·d²)·U/(ρg) + 1.75·(1−ε)/(ε³·d)·U·|U|/g
 *     U m/s over the open plan · d m grain · ε porosity · μ Pa·s · ρ kg/m³
 * Holds for grains of one size, bed Reynolds numbers ρUd/(μ(1−ε)) of 1 to 2,500; round grains.
 * Source: S. Ergun, Fluid flow through packed columns, Chem. Eng. Prog.
 * 48 (1952) 89; examples in published/media.test.ts.
 * Ours: written as head, signed. */
import { g } from "./gravity.ts";

export interface Bed {
  readonly grain: number;
  readonly porosity: number;
  readonly viscosity: number;
  readonly density: number;
}

/** The two coefficients: loss per metre = perU·U + perU2·U·|U|. */
export function ergun({ grain, porosity, viscosity, density }: Bed): { perU: number; perU2: number } {
  const solid = 1 - porosity;
  const voids = porosity ** 3;
  return {
    perU: (150 * viscosity * solid * solid) / (voids * grain * grain * density * g),
    perU2: (1.75 * solid) / (voids * grain * g),
  };
}

export function lossPerMetre(U: number, bed: Bed): number {
  const { perU, perU2 } = ergun(bed);
  return perU * U + perU2 * U * Math.abs(U);
}
