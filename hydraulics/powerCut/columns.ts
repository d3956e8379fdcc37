/** The water that stands in the legs of a line that took air, and where it falls.
 *
 * From its crest each leg runs down to the body at its end; what stands over that body's water falls into it. Of a
 * level crest, what lies on either side of an air point falls its own way; without one the longer leg, whose foot is
 * lower, draws the whole of it over, since air came in from the other side. Water in a sag stays, and so does what
 * stands behind a sound check valve; a leg that held none while the pumps ran has none. A line drawn in several pipes,
 * joint by joint, is one. */
import { placeAt } from "../document/geometry.ts";
import type { PartId } from "../document/section.ts";
import { boreArea } from "../formulas/circle.ts";
import { type Chain, chainsOf, placeOn } from "../network/chains.ts";
import type { Network, PipeModel } from "../network/network.ts";
import { carriedOn, type Entered, turned } from "../network/onward.ts";
import type { DryLeg } from "./dryLegs.ts";

/** m³ by body; null: onto the ground.
 * @param tookAir groups of pipes in which air stands
 * @param soundChecks whether check valves hold
 * @param dry legs that no water was in */
export function fallingColumns(
  network: Network,
  tookAir: ReadonlySet<number>,
  levelOf: (body: PartId) => number,
  soundChecks: boolean,
  dry: readonly DryLeg[],
): Map<PartId | null, number> {
  const falls = new Map<PartId | null, number>();
  const chains = chainsOf(network);
  const lines: Lines = new Map(
    chains.flatMap((chain) => chain.links.map(({ pipe }) => [pipe.pipe.id, chain] as const)),
  );
  for (const chain of chains) {
    const { links, line, drawn } = chain;
    if (links.some(({ pipe }) => pipe.runs !== "full" || !tookAir.has(pipe.group)) || drawn === 0) continue;
    const pieces = Math.min(400, Math.max(20, Math.ceil(drawn / 0.02)));
    const length = drawn / pieces;
    const levels = Array.from({ length: pieces }, (_, k) => placeAt(line, (k + 0.5) * length)[1]);
    const blockers = links.flatMap((link) => link.pipe.shutAt.map((at) => placeOn(link, at)));
    const legs = (["from", "to"] as const).map((side) => legAt(network, lines, chain, side, levelOf));
    const split = splitAt(network, chain, levels, legs);
    for (const { side, body, stands } of legs) {
      if (body === undefined) continue;
      // Outwards from the end: what lies there falls, as long as nothing on the way rises over it or shuts.
      const order = side === "from" ? piecesFrom(0, split) : piecesFrom(split, pieces).reverse();
      const stops = soundChecks ? [...blockers, ...checksAgainst(chain, side)] : blockers;
      let highest = Number.NEGATIVE_INFINITY;
      let volume = 0;
      for (const k of order) {
        const at = (k + 0.5) * length;
        if (stops.some((stop) => (side === "from" ? stop < at : stop > at))) break;
        const z = levels[k] as number;
        highest = Math.max(highest, z);
        if (z >= highest - 1e-6 && z > stands && !isDry(chain, at, z, dry)) volume += areaAt(chain, at) * length;
      }
      if (volume > 0) falls.set(body, (falls.get(body) ?? 0) + volume);
    }
  }
  return falls;
}

const linkAt = ({ links }: Chain, at: number) => links.findLast(({ start }) => start <= at) ?? links[0];

/** m², at m along the chain */
const areaAt = (chain: Chain, at: number): number => boreArea(linkAt(chain, at)?.pipe.pipe.bore ?? 0);

function isDry(chain: Chain, at: number, z: number, dry: readonly DryLeg[]): boolean {
  if (dry.length === 0) return false;
  const link = linkAt(chain, at);
  if (!link) return false;
  const along = link.along ? at - link.start : link.start + link.pipe.drawn - at;
  return dry.some((leg) => leg.pipe === link.pipe.pipe.id && along > leg.start && along < leg.end && z > leg.head);
}

/** Places of check valves that let no water fall towards an end. */
const checksAgainst = ({ links }: Chain, side: Leg["side"]): readonly number[] =>
  links
    .filter(({ along }) => along === (side === "from"))
    .flatMap((link) => link.pipe.checks.map(({ at }) => placeOn(link, at)));

interface Leg {
  readonly side: "from" | "to";
  /** null: the air over the ground; undefined: nowhere */
  readonly body: PartId | null | undefined;
  /** the water's level there */
  readonly stands: number;
  /** the level the leg runs down to */
  readonly foot: number;
}

/** The line that each pipe is of. */
type Lines = ReadonlyMap<PartId, Chain>;

function legAt(
  network: Network,
  lines: Lines,
  chain: Chain,
  side: Leg["side"],
  levelOf: (body: PartId) => number,
): Leg {
  const end = chain[side];
  const body = endsIn(network, lines, end, new Set(chain.links.map(({ pipe }) => pipe.pipe.id)));
  const stands = body === null || body === undefined ? Number.NEGATIVE_INFINITY : levelOf(body);
  const foot = body === undefined ? Number.POSITIVE_INFINITY : Math.max(stands, levelOfEnd(end));
  return { side, body, stands, foot };
}

/** The piece with which the `to` leg begins. */
function splitAt(network: Network, chain: Chain, levels: readonly number[], legs: readonly Leg[]): number {
  const highest = Math.max(...levels);
  const isCrest = (z: number) => z >= highest - 1e-6;
  const first = levels.findIndex(isCrest);
  const last = levels.findLastIndex(isCrest);
  const towardsTo = (legs[1] as Leg).foot <= (legs[0] as Leg).foot;
  const length = chain.drawn / levels.length;
  const airAt = [...network.vents.values()]
    .flatMap((vent) => {
      const link = vent.airPoint === null ? undefined : chain.links.find(({ pipe }) => pipe.pipe.id === vent.pipe);
      return link ? [Math.round(placeOn(link, vent.at) / length)] : [];
    })
    .filter((k) => k >= first && k <= last + 1);
  if (airAt.length > 0) return towardsTo ? Math.min(...airAt) : Math.max(...airAt);
  return towardsTo ? first : last + 1;
}

const piecesFrom = (first: number, beyond: number): number[] =>
  Array.from({ length: beyond - first }, (_, k) => first + k);

/** The body that an end leads to by its own weight: through a stopped pump, along the line that a tee sits on to its
 * lower end, past a joint of three by the one that ends lowest.
 * null: the air over the ground; undefined: nowhere.
 * @param seen pipes passed on the way; grows, as there is but one way */
function endsIn(network: Network, lines: Lines, { pipe, side }: Entered, seen: Set<PartId>): PartId | null | undefined {
  const end = pipe[side];
  if (end.kind === "body") return end.opening.body;
  if (end.kind === "air") return null;
  const onBy = (next: Entered) => endsIn(network, lines, next, seen.add(next.pipe.pipe.id));
  if (end.kind === "pump") {
    const pump = network.pumps.get(end.pump);
    if (!pump) return undefined;
    if (pump.pump.in !== undefined) return pump.pump.in;
    const feeds = ({ to }: PipeModel) => to.kind === "pump" && to.pump === end.pump;
    const feeder = [...network.pipes.values()].find((each) => !seen.has(each.pipe.id) && feeds(each));
    return feeder && onBy({ pipe: feeder, side: "from" });
  }
  const joined = carriedOn(network, { pipe, side });
  if (end.kind === "joint" || joined.length > 0) {
    const open = joined.filter((each) => !seen.has(each.pipe.pipe.id) && each.pipe.shutAt.length === 0).map(turned);
    const lowest = open.sort((a, b) => levelOfEnd(a) - levelOfEnd(b))[0];
    return lowest && onBy(lowest);
  }
  const main = lines.get(end.pipe);
  if (!main || main.links.some((link) => seen.has(link.pipe.pipe.id))) return undefined;
  for (const link of main.links) seen.add(link.pipe.pipe.id);
  return onBy(levelOfEnd(main.from) <= levelOfEnd(main.to) ? main.from : main.to);
}

const levelOfEnd = ({ pipe, side }: Entered): number => pipe[side].place[1];
