import { type Part, type PartId, partId, type Section } from "../document/section.ts";
import { seriesNamed } from "../formulas/sizes.ts";
import type { Box } from "./box.ts";
import type { WalkWish } from "./wish.ts";

/** A pipe's size as the walk lays it; its name empty where it does not matter */
interface Laid {
  readonly bore: number;
  readonly size: string;
}

/** A pond of the volume wanted: as deep as 0.9 m, twice as long as wide. */
const depth = 0.9;
const waterLevel = -0.05;
/** So high that a third of the water stays if a line parts. */
const pumpPlace = [0.5, waterLevel - 0.58] as const;

/** The walk's parts on a sheet, by the rules: over the rim by a loop with a breather, the return in the wall, a flush
 * at the base. Everything is rounded to the millimetre, as it would be built. */
export function walkDrawing(wish: WalkWish, supply: Laid, back: Laid, box: Box): Section {
  const round = (value: number, step = 1e-3): number => Number((Math.round(value / step) * step).toPrecision(12));
  const width = round(Math.sqrt((2 * wish.pondVolume) / depth));
  const length = round(wish.pondVolume / depth / width);
  const side = round(Math.sqrt((wish.pondVolume * wish.vesselShare) / wish.vesselHeight));
  const base = round(waterLevel + wish.lift);
  const rim = round(base + wish.vesselHeight);
  const left = round(width + wish.distance);
  const crest = round(rim + 0.05);
  const [px, pz] = pumpPlace;
  // The crown of the mouth lies a quarter of a bore and the freeboard under the rim.
  const mouth = round(rim - 0.05 - 1.25 * back.bore - 0.03);
  const bed = Math.max(0.05, mouth - back.bore / 2 - 0.05 - base);
  const supplySeries = seriesNamed(wish.supplySeries);
  const returnSeries = seriesNamed(wish.returnSeries);
  const id = partId;
  const parts: readonly Part[] = [
    {
      id: id("pond"),
      kind: "pond",
      rank: 0,
      label: "Pond",
      x: 0,
      width,
      length,
      bedLevel: round(waterLevel - depth),
      rimLevel: 0.1,
      waterLevel,
    },
    {
      id: id("filter"),
      kind: "vessel",
      rank: 1,
      label: "Filter",
      x: left,
      plan: { shape: "rectangle", width: side, length: side },
      baseLevel: base,
      rimLevel: rim,
      media: [
        { depth: round(bed * 0.4), grain: 0.045, porosity: 0.45 },
        { depth: round(bed * 0.6), grain: 0.012, porosity: 0.4 },
      ],
    },
    {
      id: id("pump"),
      kind: "pump",
      rank: 2,
      label: "Pump",
      x: px,
      z: round(pz),
      in: id("pond"),
      maxFlow: box.maxFlow,
      maxHead: box.maxHead,
    },
    {
      id: id("supply"),
      kind: "pipe",
      rank: 3,
      label: "Supply",
      from: { part: id("pump") },
      to: { part: id("filter"), z: round(base + 0.08), mouth: "side" },
      route: [
        [px, crest],
        [round(left - 0.2), crest],
        [round(left - 0.2), round(base + 0.08)],
      ],
      bore: supply.bore,
      material: supplySeries.material,
      ...(supply.size === "" ? {} : { nominal: `${supplySeries.name}, ${supply.size}` }),
    },
    {
      id: id("breather"),
      kind: "vent",
      rank: 4,
      label: "Breather",
      bore: 0.016,
      openEndZ: round(crest + 0.15),
      on: { pipe: id("supply"), at: round(crest - pz + (left - 0.2 - px) - 0.15) },
    },
    {
      id: id("return"),
      kind: "pipe",
      rank: 5,
      label: "Return",
      from: { part: id("filter"), z: mouth, mouth: "side" },
      to: { part: id("pond"), x: round(width - 0.3), z: round(waterLevel + 0.1), mouth: "down" },
      // 2 % of fall
      route: [[round(width - 0.3), round(mouth - 0.02 * (wish.distance + 0.3))]],
      bore: back.bore,
      material: returnSeries.material,
      ...(back.size === "" ? {} : { nominal: `${returnSeries.name}, ${back.size}` }),
    },
    {
      id: id("flush"),
      kind: "pipe",
      rank: 6,
      label: "Flush",
      from: { part: id("filter"), z: round(base + 0.04), mouth: "side" },
      to: { open: true, x: round(left + side + 0.5), z: round(base + 0.03) },
      route: [],
      bore: Math.min(back.bore, 0.06),
      material: returnSeries.material,
    },
    {
      id: id("flush-valve"),
      kind: "valve",
      rank: 7,
      type: "ball",
      role: "flush",
      open: 0,
      on: { pipe: id("flush"), at: 0.25 },
    },
  ];
  return {
    title: "Sized by the rules of thumb",
    site: { groundLevel: 0, tariff: wish.tariff },
    parts: new Map<PartId, Part>(parts.map((part) => [part.id, part])),
  };
}
