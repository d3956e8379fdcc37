/** Plan areas and stored water of ponds and vessels.
 *
 * A pond narrows downwards on all four sides (section 2 of the format); a vessel stores its plan area times
 * the porosity of what lies at that level, 1 above the media. Above the rim the rim's area goes on, so that
 * a level that stands over it for a moment still has a volume. */
import { mediaOf, sideSlope } from "./defaults.ts";
import type { Body, Pond, Vessel } from "./section.ts";

/** m² of the vessel's plan, stone or not. */
export const planArea = (vessel: Vessel): number =>
  vessel.plan.shape === "round" ? (Math.PI * vessel.plan.diameter ** 2) / 4 : vessel.plan.width * vessel.plan.length;

export interface BedSlice {
  readonly from: number;
  readonly to: number;
  readonly grain: number;
  readonly porosity: number;
}

/** The media as slices of levels, from the base up, cut at the rim. */
export function bedSlices(vessel: Vessel): readonly BedSlice[] {
  const slices: BedSlice[] = [];
  let from = vessel.baseLevel;
  for (const layer of mediaOf(vessel)) {
    const to = Math.min(from + layer.depth, vessel.rimLevel);
    if (to > from) slices.push({ from, to, grain: layer.grain, porosity: layer.porosity });
    from = to;
  }
  return slices;
}

export const bedTop = (vessel: Vessel): number => bedSlices(vessel).at(-1)?.to ?? vessel.baseLevel;

/** m² of water surface at a level: dV/dz. Never 0, so that a level always has a rate. */
export function waterArea(body: Body, level: number): number {
  if (body.kind === "pond") {
    const inset = 2 * sideSlope(body) * Math.max(0, body.rimLevel - Math.max(level, body.bedLevel));
    return Math.max(body.width - inset, 1e-4) * Math.max(body.length - inset, 1e-4);
  }
  const area = planArea(body);
  for (const slice of bedSlices(body)) if (level >= slice.from && level < slice.to) return area * slice.porosity;
  return area;
}

/** m³ of water between the bed or base and a level; 0 at and below it. */
export function waterVolume(body: Body, level: number): number {
  return body.kind === "pond" ? pondVolume(body, level) : vesselVolume(body, level);
}

function vesselVolume(vessel: Vessel, level: number): number {
  const area = planArea(vessel);
  let volume = Math.max(0, level - vessel.baseLevel) * area;
  for (const { from, to, porosity } of bedSlices(vessel)) {
    volume -= Math.max(0, Math.min(level, to) - from) * area * (1 - porosity);
  }
  return volume;
}

function pondVolume(pond: Pond, level: number): number {
  if (level <= pond.bedLevel) return 0;
  const s = sideSlope(pond);
  const overRim = Math.max(0, level - pond.rimLevel) * pond.width * pond.length;
  const top = Math.min(level, pond.rimLevel);
  if (s === 0) return (top - pond.bedLevel) * pond.width * pond.length + overRim;
  // Depth below the rim at which the sides meet: nothing is stored below it.
  const meet = Math.min(pond.width, pond.length) / (2 * s);
  const deep = Math.min(pond.rimLevel - pond.bedLevel, meet);
  const shallow = pond.rimLevel - top;
  if (shallow >= deep) return overRim;
  // ∫ (w − 2su)(l − 2su) du over the depth u below the rim
  const stored = (u: number) =>
    pond.width * pond.length * u - s * (pond.width + pond.length) * u ** 2 + (4 * s * s * u ** 3) / 3;
  return stored(deep) - stored(shallow) + overRim;
}

/** The level at which a body holds a volume: the inverse of `waterVolume`, by bisection to 1e-12 m. */
export function levelOfVolume(body: Body, volume: number): number {
  const bottom = body.kind === "pond" ? body.bedLevel : body.baseLevel;
  if (volume <= 0) return bottom;
  let low = bottom;
  let high = body.rimLevel;
  while (waterVolume(body, high) < volume) high += Math.max(0.1, high - bottom);
  for (let i = 0; i < 200 && high - low > 1e-12; i++) {
    const middle = (low + high) / 2;
    if (waterVolume(body, middle) < volume) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
