/** Where each law leaves the range it was tested in, as words for the screen; empty where it is inside.
 * Prose in a docstring warns nobody: these do. Source of each limit: the docstring of its law. */

export interface PipeFlow {
  readonly Re: number;
  readonly D: number;
  readonly V: number;
  /** °C */
  readonly T: number;
}

/** Temperatures at which Hazen-Williams is called "near 15 °C":
 * the viscosity lies within about a quarter of the one there. From memory. */
const coolest = 5;
const warmest = 25;

export function hazenWilliamsRange({ Re, D, V, T }: PipeFlow): string[] {
  const reasons: string[] = [];
  if (Re > 0 && Re < 2000) reasons.push("Hazen-Williams is untested in laminar flow");
  else if (Re >= 2000 && Re < 4000) reasons.push("Hazen-Williams is untested between laminar and turbulent flow");
  if (D < 0.05) reasons.push("Hazen-Williams is untested below 50 mm bore");
  if (Math.abs(V) > 3) reasons.push("Hazen-Williams is untested above 3 m/s");
  if (T < coolest || T > warmest) reasons.push("Hazen-Williams is untested far from 15 °C");
  return reasons;
}

export function darcyWeisbachRange({
  Re,
  D,
  roughness,
}: {
  readonly Re: number;
  readonly D: number;
  readonly roughness: number;
}): string[] {
  const reasons: string[] = [];
  if (Re > 2000 && Re < 4000) reasons.push("between laminar and turbulent flow the friction factor is a convention");
  if (Re > 1e8) reasons.push("Colebrook-White is untested above a Reynolds number of 100 million");
  if (roughness / D > 0.05) reasons.push("Colebrook-White is untested where the roughness passes 5 % of the bore");
  return reasons;
}

/** Mouths of gravity pipes: FHWA HDS-5 by its own scaling; surface tension from memory. */
export function inletRange(D: number): string[] {
  return D < 0.025
    ? ["below 25 mm bore surface tension holds water back at a mouth, and the inlet equations leave it out"]
    : [];
}

/** Bed Reynolds number ρUd/(μ(1−ε)), between 1 and 2,500. Below 1 the linear term alone counts, which holds on. */
export function ergunRange(U: number, grain: number, porosity: number, viscosity: number, density: number): string[] {
  const Re = (density * Math.abs(U) * grain) / (viscosity * (1 - porosity));
  return Re > 2500 ? ["Ergun's equation is untested in stone as coarse as this at this upflow"] : [];
}

/** Stokes' law holds while the particle's own Reynolds number stays under about 1. */
export function stokesRange(U: number, diameter: number, viscosity: number, density: number): string[] {
  return (density * Math.abs(U) * diameter) / viscosity > 1
    ? ["particles this large sink more slowly than Stokes' law says"]
    : [];
}
