/** The sizing walk: from a pond to vessel, flow, pump, pipe and return, each step by a rule of thumb, and among what
 * meets the rules the cheapest.
 *
 *   pond volume × share → vessel · vessel × volumes an hour → flow · for every size of supply: the head that the pump
 *   needs at that flow, by the solver on a drawing of just these parts → watts → cost of a year · for every size of return:
 *   what it carries, by the solver → the smallest with room to spare that is wider than the supply
 *
 * Cost over the years = years · W/1000 · 8760 · tariff + metres · price a metre. Two things are assumed and may be typed
 * over: the pump's wire-to-water efficiency (small submersibles 5 to 25 %, from memory) and the price of pipe, taken as
 * proportional to its bore (no source). No pump is named: the walk says the duty to look for, and the two figures that a
 * box would bear if its curve is the stand-in and the duty stands at six tenths of its greatest flow (ours). */
import { solveRunning } from "../assess.ts";
import { lineLength, pipeLine } from "../document/geometry.ts";
import { type Part, type PartId, partId, type Section } from "../document/section.ts";
import { g } from "../formulas/gravity.ts";
import { hoursPerYear } from "../formulas/runningCost.ts";
import { seriesNamed } from "../formulas/sizes.ts";
import { waterDensity } from "../formulas/water.ts";
import { headNeeded } from "../sweep/systemCurve.ts";

export interface WalkWish {
  /** m³ of the pond */
  readonly pondVolume: number;
  /** of the pond's volume, gross */
  readonly vesselShare: number;
  /** vessel volumes an hour */
  readonly turnover: number;
  /** m from base to rim */
  readonly vesselHeight: number;
  /** m from the pond's water up to the vessel's base */
  readonly lift: number;
  /** m of level run between pond and vessel */
  readonly distance: number;
  /** by their names in the table of sizes */
  readonly supplySeries: string;
  readonly returnSeries: string;
  readonly efficiency: number;
  /** money per kWh */
  readonly tariff: number;
  /** money a metre of pipe and metre of bore */
  readonly pipePrice: number;
  readonly years: number;
}

export const usualWish: WalkWish = {
  pondVolume: 6,
  vesselShare: 0.1,
  turnover: 6,
  vesselHeight: 0.7,
  lift: 0.1,
  distance: 2,
  supplySeries: "PVC-U metric, SDR 13.6 (PN 16)",
  returnSeries: "PVC-U metric, SDR 21 (PN 10)",
  efficiency: 0.15,
  tariff: 0.3,
  pipePrice: 300,
  years: 5,
};

export interface SupplyChoice {
  readonly size: string;
  readonly bore: number;
  /** null where the solver found none */
  readonly head: number | null;
  readonly velocity: number;
  readonly watts: number | null;
  readonly yearlyCost: number | null;
  /** money over the years, pipe with it */
  readonly cost: number | null;
  readonly meets: boolean;
  readonly why: string;
}

export interface ReturnChoice {
  readonly size: string;
  readonly bore: number;
  readonly margin: number | null;
  readonly meets: boolean;
  readonly why: string;
}

/** the two figures that a pump's box bears: m³/s at no head, m at no flow */
interface Box {
  readonly maxFlow: number;
  readonly maxHead: number;
}

/** a pipe's size as the walk lays it; its name empty where it does not matter */
interface Laid {
  readonly bore: number;
  readonly size: string;
}

export interface Walk {
  readonly wish: WalkWish;
  /** m³, gross */
  readonly vesselVolume: number;
  /** m of the sides of a square plan */
  readonly vesselSide: number;
  /** m³/s */
  readonly flow: number;
  /** m/s */
  readonly upflow: number;
  readonly supplies: readonly SupplyChoice[];
  readonly returns: readonly ReturnChoice[];
  readonly supply: SupplyChoice | null;
  readonly back: ReturnChoice | null;
  /** figures of a box whose stand-in curve passes the duty */
  readonly box: Box | null;
  /** the drawing of the choice; null where there is none */
  readonly section: Section | null;
}

/** m/s over which a supply is not taken: sources allow about 1 to 3 */
const fastest = 3;
const leastMargin = 1.5;
/** where on its box the duty stands */
const shareOfBox = 0.6;

export function walk(wish: WalkWish): Walk {
  const vesselVolume = wish.pondVolume * wish.vesselShare;
  const vesselSide = Math.sqrt(vesselVolume / wish.vesselHeight);
  const flow = (vesselVolume * wish.turnover) / 3600;
  const supplySizes = seriesNamed(wish.supplySeries);
  const returnSizes = seriesNamed(wish.returnSeries);
  const widest = returnSizes.sizes.at(-1)?.bore ?? 0.1;
  const supplies = supplySizes.sizes.map(({ name, bore }) => supplyChoice(wish, flow, name, bore, widest));
  const meeting = supplies.filter((choice) => choice.meets && choice.cost !== null);
  const supply = meeting.reduce<SupplyChoice | null>(
    (best, choice) => (best === null || (choice.cost as number) < (best.cost as number) ? choice : best),
    null,
  );
  const head = supply?.head ?? null;
  const box = head === null ? null : boxFor(flow, head);
  const returns =
    supply && box ? returnSizes.sizes.map(({ name, bore }) => returnChoice(wish, supply, name, bore, box)) : [];
  const back = returns.find(({ meets }) => meets) ?? null;
  return {
    wish,
    vesselVolume,
    vesselSide,
    flow,
    upflow: flow / vesselSide ** 2,
    supplies,
    returns,
    supply,
    back,
    box,
    section: supply && back && box ? drawingOf(wish, supply, back, box) : null,
  };
}

/** The stand-in H = Hmax·(1 − (Q/Qmax)²) through the duty. */
const boxFor = (flow: number, head: number): Box => ({
  maxFlow: flow / shareOfBox,
  maxHead: Math.max(head, 0.05) / (1 - shareOfBox ** 2),
});

function supplyChoice(wish: WalkWish, flow: number, size: string, bore: number, returnBore: number): SupplyChoice {
  const box = boxFor(flow, wish.lift + wish.vesselHeight + 1);
  const section = drawingOf(wish, { bore, size }, { bore: returnBore, size: "" }, box);
  const { head } = headNeeded(section, partId("pump"), flow);
  const velocity = flow / ((Math.PI * bore ** 2) / 4);
  const watts = head === null ? null : (waterDensity(15) * g * flow * Math.max(0, head)) / wish.efficiency;
  const yearlyCost = watts === null ? null : (watts / 1000) * hoursPerYear * wish.tariff;
  const supply = section.parts.get(partId("supply"));
  const metres = supply?.kind === "pipe" ? lineLength(pipeLine(section, supply)) : 0;
  const cost = yearlyCost === null ? null : wish.years * yearlyCost + metres * bore * wish.pipePrice;
  const meets = head !== null && velocity <= fastest;
  return {
    size,
    bore,
    head,
    velocity,
    watts,
    yearlyCost,
    cost,
    meets,
    why: head === null ? "no head was found" : velocity > fastest ? "faster than 3 m/s" : "",
  };
}

function returnChoice(wish: WalkWish, supply: SupplyChoice, size: string, bore: number, box: Box): ReturnChoice {
  if (bore <= supply.bore) return { size, bore, margin: null, meets: false, why: "not wider than the supply" };
  const { running } = solveRunning(drawingOf(wish, supply, { bore, size }, box), { quick: true });
  const margin = running.converged ? (running.vessels.get(partId("filter"))?.returnMargin ?? null) : null;
  const meets = margin !== null && margin >= leastMargin;
  return {
    size,
    bore,
    margin,
    meets,
    why: margin === null ? "not solved" : meets ? "" : "carries less than 1.5 times the flow",
  };
}

/** A pond of the volume wanted: as deep as 0.9 m, twice as long as wide. */
const depth = 0.9;
const waterLevel = -0.05;
/** So high that a third of the water stays if a line parts. */
const pumpPlace = [0.5, waterLevel - 0.58] as const;

/** The walk's parts on a sheet, by the rules: over the rim by a loop with a breather, the return in the wall, a flush at
 * the base. Everything is rounded to the millimetre, as it would be built. */
function drawingOf(wish: WalkWish, supply: Laid, back: Laid, box: Box): Section {
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
