/** Pours water along ways until nothing is higher than its bar: the levels at which everything rests.
 *
 * Nothing here knows a flow. Where one way leads out of each body, the order in which water is poured does not
 * matter; where several lead to different places, it does, and then levels alone do not fix the end. So the same
 * water is poured in several orders: what they agree on is fixed by levels, what they differ in is not. */
import type { Body, PartId } from "../document/section.ts";
import { bedSlices, levelOfVolume, planArea, waterVolume } from "../document/volumes.ts";
import type { Way } from "./closedFormWays.ts";

export interface Poured {
  readonly levels: ReadonlyMap<PartId, number>;
  readonly lowest: ReadonlyMap<PartId, number>;
  readonly highest: ReadonlyMap<PartId, number>;
  /** m³ */
  readonly lostToGround: number;
  /** m³ over the body's own rim */
  readonly overRim: ReadonlyMap<PartId, number>;
  readonly settled: boolean;
}

export interface Order {
  /** which of the ways that run is poured next */
  readonly first: "lowestBar" | "highestBar" | "listed" | "reversed";
  /** share of what could run that is poured at once */
  readonly share: number;
}

export const orders: readonly Order[] = [
  { first: "lowestBar", share: 1 },
  { first: "highestBar", share: 1 },
  { first: "listed", share: 0.5 },
  { first: "reversed", share: 0.5 },
];

/** m; levels nearer than this count as met */
const met = 1e-7;
const mostPours = 3000;

/** Bodies that no way joins do not know of each other: each cluster is poured by itself, so that a sheet with many
 * ponds costs no more than its ponds one by one. */
export function pourAll(
  bodies: readonly Body[],
  start: ReadonlyMap<PartId, number>,
  ways: readonly Way[],
  order: Order,
): Poured {
  const all = {
    levels: new Map(),
    lowest: new Map(),
    highest: new Map(),
    overRim: new Map(),
  } satisfies Partial<Poured>;
  let [lostToGround, settled] = [0, true];
  for (const cluster of clustersOf(bodies, ways)) {
    const poured = pour(cluster.bodies, start, cluster.ways, order);
    for (const name of ["levels", "lowest", "highest", "overRim"] as const) {
      for (const [id, value] of poured[name]) all[name].set(id, value);
    }
    lostToGround += poured.lostToGround;
    settled &&= poured.settled;
  }
  return { ...all, lostToGround, settled };
}

interface Cluster {
  readonly bodies: Body[];
  readonly ways: Way[];
}

function clustersOf(bodies: readonly Body[], ways: readonly Way[]): Iterable<Cluster> {
  const lead = new Map(bodies.map((body) => [body.id, body.id]));
  const root = (id: PartId): PartId => {
    let at = id;
    for (let up = lead.get(at) as PartId; up !== at; up = lead.get(at) as PartId) {
      // Each look halves the path, so that a long chain is walked once.
      lead.set(at, lead.get(up) as PartId);
      at = up;
    }
    return at;
  };
  for (const way of ways) if (way.to !== "ground") lead.set(root(way.from), root(way.to));
  const clusters = new Map<PartId, Cluster>();
  for (const body of bodies) {
    const cluster = clusters.get(root(body.id)) ?? { bodies: [], ways: [] };
    clusters.set(root(body.id), cluster);
    cluster.bodies.push(body);
  }
  for (const way of ways) clusters.get(root(way.from))?.ways.push(way);
  return clusters.values();
}

function pour(bodies: readonly Body[], start: ReadonlyMap<PartId, number>, ways: readonly Way[], order: Order): Poured {
  const byId = new Map(bodies.map((body) => [body.id, body]));
  const volume = new Map(bodies.map((body) => [body.id, waterVolume(body, start.get(body.id) as number)]));
  const level = new Map(bodies.map((body) => [body.id, start.get(body.id) as number]));
  const lowest = new Map(level);
  const highest = new Map(level);
  const overRim = new Map<PartId, number>();
  const broken = new Set<Way>();
  let lostToGround = 0;

  const barOf = (way: Way): number =>
    way.to === "ground" ? way.bar.level : Math.max(way.bar.level, (level.get(way.to) as number) + way.opening);
  const setLevel = (id: PartId, to: number) => {
    level.set(id, to);
    lowest.set(id, Math.min(to, lowest.get(id) as number));
    highest.set(id, Math.max(to, highest.get(id) as number));
    for (const way of ways) {
      if (way.from !== id || way.mouth === null) continue;
      if (to <= way.mouth + met) broken.add(way);
      else if (to > way.restart) broken.delete(way);
    }
  };
  for (const [id, at] of [...level]) setLevel(id, at);

  let turn = 0;
  for (let pours = 0; pours < mostPours; pours++) {
    const running = ways.filter((way) => !broken.has(way) && (level.get(way.from) as number) > barOf(way) + met);
    const way = pickWay(running, order, barOf, turn++);
    if (!way) return { levels: level, lowest, highest, lostToGround, overRim, settled: true };
    const from = byId.get(way.from) as Body;
    const to = way.to === "ground" ? null : (byId.get(way.to) as Body);
    const before = level.get(way.from) as number;
    const held = volume.get(way.from) as number;
    const target = before + order.share * (restOf(way, from, to, volume, before) - before);
    // The last of it at once, or a share of a share would go on for ever.
    const reached = before - target < 2e-6 ? restOf(way, from, to, volume, before) : target;
    const moved = Math.max(0, held - waterVolume(from, reached));
    volume.set(way.from, held - moved);
    setLevel(way.from, reached);
    if (way.via === way.from) overRim.set(way.from, (overRim.get(way.from) ?? 0) + moved);
    if (!to) lostToGround += moved;
    else {
      const now = (volume.get(to.id) as number) + moved;
      volume.set(to.id, now);
      setLevel(to.id, levelAt(to, now));
    }
  }
  return { levels: level, lowest, highest, lostToGround, overRim, settled: false };
}

function pickWay(running: readonly Way[], order: Order, barOf: (way: Way) => number, turn: number): Way | undefined {
  if (order.first === "listed") return running[turn % Math.max(1, running.length)];
  if (order.first === "reversed") return running[(running.length * 4096 - 1 - turn) % Math.max(1, running.length)];
  let best: Way | undefined;
  for (const way of running) {
    if (!best || (order.first === "lowestBar" ? barOf(way) < barOf(best) : barOf(way) > barOf(best))) best = way;
  }
  return best;
}

/** The level at which the upper body stops if this way alone runs: at its bar, or where levels meet. */
function restOf(way: Way, from: Body, to: Body | null, volume: ReadonlyMap<PartId, number>, before: number): number {
  if (!to) return way.bar.level;
  const [held, there] = [volume.get(from.id) as number, volume.get(to.id) as number];
  const over = (at: number) => at - (levelAt(to, there + Math.max(0, held - waterVolume(from, at))) + way.opening);
  let [low, high] = [way.bar.level, before];
  let [under, above] = [over(low), over(high)];
  if (under >= 0) return low;
  // False position, Illinois' way: the level of either body is nearly a straight line of the other's.
  for (let i = 0; i < 60 && high - low > 1e-10 && above > 1e-10; i++) {
    const middle = low + ((high - low) * under) / (under - above);
    const there = over(middle);
    if (there > 0) {
      [high, above] = [middle, there];
      under /= 2;
    } else {
      [low, under] = [middle, there];
      above /= 2;
    }
    if (Math.abs(there) < 1e-10) return middle;
  }
  return high;
}

/** Upright walls and layers of stone are straight lines, solved here;
 * a pond with sloping sides is asked by bisection. */
function levelAt(body: Body, volume: number): number {
  const bottom = body.kind === "pond" ? body.bedLevel : body.baseLevel;
  if (volume <= 0) return bottom;
  if (body.kind === "pond")
    return (body.sideSlope ?? 0) === 0 ? bottom + volume / (body.width * body.length) : levelOfVolume(body, volume);
  let [level, left] = [bottom, volume];
  for (const slice of bedSlices(body)) {
    const holds = planArea(body) * slice.porosity * (slice.to - slice.from);
    if (left <= holds) return level + left / (planArea(body) * slice.porosity);
    left -= holds;
    level = slice.to;
  }
  return level + left / planArea(body);
}
