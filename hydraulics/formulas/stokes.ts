/** How fast a small particle sinks in still water.
 *     v = (ρp − ρ)·g·d²/(18·μ)        v m/s · d m · ρp, ρ kg/m³ · μ Pa·s
 * Holds for spheres at particle Reynolds numbers ρvd/μ under about 1 (above it they sink more slowly than this).
 * Source: Stokes' law; published/stokes.test.ts. */
import { g } from "./gravity.ts";

/** Pond dirt, unless told otherwise: design notes, section 5. */
export const dirtDensity = 1100;

export interface Liquid {
  /** dynamic, Pa·s */
  readonly viscosity: number;
  readonly density: number;
}

export const settlingVelocity = (d: number, { viscosity, density }: Liquid, particleDensity = dirtDensity): number =>
  ((particleDensity - density) * g * d * d) / (18 * viscosity);

/** The smallest particle that sinks against an upward stream U m/s; Infinity where none does (lighter than water). */
export function settlingDiameter(U: number, { viscosity, density }: Liquid, particleDensity = dirtDensity): number {
  if (!(particleDensity > density)) return Infinity;
  return Math.sqrt((18 * viscosity * Math.max(0, U)) / ((particleDensity - density) * g));
}
