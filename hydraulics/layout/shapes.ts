/** Pond and vessel of a new layout: sizes that a builder would recognise, from their volumes alone. Shares of sides
 * and depths are chosen here, no source; depth of the bed and size of the stone are common practice (design notes). */
import { type Plan, type Pond, partId, type Vessel } from "../document/section.ts";

/** m over the ground: an edge that keeps rain from running in */
const edge = 0.05;

const clamp = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);
const toStep = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(3));

/** A pond of that volume below its water level, which stands `below` m under its rim. */
export function pondOf(volume: number, below: number): Pond {
  const deep = toStep(clamp(0.45 * volume ** 0.3, 0.4, 1.6), 0.05);
  const width = toStep(Math.sqrt((1.4 * volume) / deep), 0.05);
  const waterLevel = toStep(edge - below, 0.001);
  return {
    id: partId("pond"),
    rank: 0,
    kind: "pond",
    label: "Pond",
    x: 0,
    width,
    length: toStep(volume / (deep * width), 0.01),
    bedLevel: toStep(waterLevel - deep, 0.001),
    rimLevel: edge,
    waterLevel,
  };
}

/** Plan and height of a vessel of that volume: low rather than tall, so that the water rises slowly. */
export function vesselShape(volume: number): { readonly plan: Plan; readonly height: number } {
  const height = toStep(clamp(0.85 * volume ** (1 / 3), 0.45, 0.9), 0.05);
  const area = volume / height;
  if (area < 0.9) return { height, plan: { shape: "round", diameter: toStep(Math.sqrt((4 * area) / Math.PI), 0.01) } };
  const width = toStep(Math.sqrt(1.6 * area), 0.05);
  return { height, plan: { shape: "rectangle", width, length: toStep(area / width, 0.01) } };
}

/** Stone from the base up, coarse to fine, `deep` m in all. */
export function stoneOf(deep: number): NonNullable<Vessel["media"]> {
  const coarse = toStep(0.3 * deep, 0.01);
  const middle = toStep(0.3 * deep, 0.01);
  return [
    { depth: coarse, grain: 0.05, porosity: 0.45 },
    { depth: middle, grain: 0.025, porosity: 0.42 },
    { depth: toStep(deep - coarse - middle, 0.001), grain: 0.012, porosity: 0.4 },
  ];
}
