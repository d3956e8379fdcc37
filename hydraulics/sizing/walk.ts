/** The sizing walk: from a pond to vessel, flow, pump, pipe and return, each step by a rule of thumb, and among what
 * meets the rules the cheapest.
 *
 *   pond volume × share → vessel · vessel × volumes an hour → flow · for every size of supply: the head that the pump
 *   needs at that flow, by the solver on a drawing of just these parts → watts → cost of a year · for every size of
 *   return: what it carries, by the solver → the smallest with room to spare that is wider than the supply
 *
 * Cost over the years = years · W/1000 · 8760 · tariff + metres · price a metre. Two things are assumed and may be
 * typed over: the pump's wire-to-water efficiency (small submersibles 5 to 25 %, from memory) and the price of pipe,
 * taken as proportional to its bore (no source). No pump is named: the walk says the duty to look for, and the two
 * figures that a box would bear if its curve is the stand-in and the duty stands at six tenths
 * of its greatest flow (ours). */
import type { Section } from "../document/section.ts";
import { seriesNamed } from "../formulas/sizes.ts";
import { type Box, boxFor } from "./box.ts";
import { type ReturnChoice, returnChoice } from "./returnChoice.ts";
import { type SupplyChoice, supplyChoice } from "./supplyChoice.ts";
import { walkDrawing } from "./walkDrawing.ts";
import type { WalkWish } from "./wish.ts";

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
    section: supply && back && box ? walkDrawing(wish, supply, back, box) : null,
  };
}
