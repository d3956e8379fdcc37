/** Vents rated for the power cut: once, each alone, at the level at which it has to act.
 *
 * Pumps stopped, check valves open, every vent closed; ponds at their running level, each vessel at the lower of
 * its start level and the vent's tee. Air drawn at the suction there against the water flowing past: ample from
 * 1, marginal down to a fifth, too small below; not used where nothing flows or nothing pulls. The rating holds
 * for the whole cut: suction falls as the vessel empties, and a vent not ample at the start is not credited
 * later. That air at least as much as the water breaks a siphon is common practice, no source. */
import { siteOf, ventOpen } from "../document/defaults.ts";
import type { PartId, Section } from "../document/section.ts";
import { velocityHead } from "../formulas/totalHead.ts";
import { ampleBore, ventAirFlow, ventArea } from "../formulas/ventPassage.ts";
import { waterDensity } from "../formulas/water.ts";
import { buildNetwork } from "../network/build.ts";
import type { Network } from "../network/network.ts";
import { atRest } from "../solver/rest.ts";
import { arriving, stretchesAt } from "../solver/steady.ts";
import type { CutVent, VentRating } from "./powerCut.ts";
import { solveAtLevels } from "./solveAtLevels.ts";

export const marginalFrom = 0.2;

type Ratings = ReadonlyMap<PartId, CutVent>;

interface Rated {
  readonly startLevels: ReadonlyMap<PartId, number>;
  readonly asFull: ReadonlySet<PartId>;
  readonly ratings: Ratings;
}

/** The last of each drawing: the second judge asks for the same as the cut, and each rating takes a solve. */
const known = new WeakMap<Section, readonly Rated[]>();
const mostKnown = 2;

/** @param startLevels m, of every body
 *  @param asFull pipes that are followed as full lines */
export function rateVents(
  section: Section,
  startLevels: ReadonlyMap<PartId, number>,
  asFull: ReadonlySet<PartId>,
): Ratings {
  const before = known.get(section) ?? [];
  const same = before.find((one) => isSameMap(one.startLevels, startLevels) && isSameSet(one.asFull, asFull));
  if (same) return same.ratings;
  const ratings = rate(section, startLevels, asFull);
  known.set(section, [{ startLevels: new Map(startLevels), asFull, ratings }, ...before].slice(0, mostKnown));
  return ratings;
}

const isSameSet = <T>(a: ReadonlySet<T>, b: ReadonlySet<T>): boolean =>
  a.size === b.size && [...a].every((one) => b.has(one));
const isSameMap = <T>(a: ReadonlyMap<T, number>, b: ReadonlyMap<T, number>): boolean =>
  a.size === b.size && [...a].every(([key, value]) => b.get(key) === value);

function rate(section: Section, startLevels: ReadonlyMap<PartId, number>, asFull: ReadonlySet<PartId>): Ratings {
  const ratings = new Map<PartId, CutVent>();
  const density = waterDensity(siteOf(section).waterTemperature);
  const byTee = new Map<number, PartId[]>();
  const first = stopped(section, asFull);
  for (const [id, vent] of first.vents) {
    if (vent.node < 0) ratings.set(id, { rating: "notUsed", airToWater: null, ampleBore: null });
    else byTee.set(vent.teeLevel, [...(byTee.get(vent.teeLevel) ?? []), id]);
  }
  // Vents with tees at one level share a solve. It leaves its marks on a network: each has its own.
  let unused: Network | null = first;
  for (const [tee, ids] of byTee) {
    const network: Network = unused ?? stopped(section, asFull);
    unused = null;
    const given = new Map(
      [...network.bodies].map(([id, { body }]) => {
        const start = startLevels.get(id) as number;
        return [id, body.kind === "vessel" ? Math.min(start, tee) : start];
      }),
    );
    const { system, solved } = solveAtLevels(network, given);
    for (const id of ids) {
      const vent = network.vents.get(id);
      if (!vent) continue;
      const around = stretchesAt(network, vent);
      const water = arriving(around);
      const head = (system.head[vent.node] as number) - velocityHead(water / around.area);
      const suction = vent.teeLevel - head;
      if (!solved.converged || water <= atRest || suction <= 1e-9) {
        ratings.set(id, { rating: "notUsed", airToWater: null, ampleBore: null });
        continue;
      }
      const riser = vent.endLevel - vent.teeLevel;
      const open = ventOpen(vent.vent);
      const airToWater = ventAirFlow(suction, ventArea(vent.vent.bore, open, riser), density) / water;
      const enough = ampleBore({ passing: water, suction, density }, open, riser);
      ratings.set(id, { rating: ratingOf(airToWater), airToWater, ampleBore: enough });
    }
  }
  return ratings;
}

const ratingOf = (airToWater: number): VentRating =>
  airToWater >= 1 ? "ample" : airToWater >= marginalFrom ? "marginal" : "tooSmall";

const stopped = (section: Section, asFull: ReadonlySet<PartId>): Network =>
  buildNetwork(section, { pumps: "stopped", checkValves: "open", ventsShut: true, asFull });
