/** Pours water along ways until nothing is higher than its bar: the levels at which everything rests.
 *
 * Nothing here knows a flow. Where one way leads out of each body, the order in which water is poured does not
 * matter; where several lead to different places, it does, and then levels alone do not fix the end. So the same
 * water is poured in several orders: what they agree on is fixed by levels, what they differ in is not. */
import type { Body, PartId } from "../document/section.ts";
import { levelOfVolume, waterVolume } from "../document/volumes.ts";
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
  { first: "listed", share: 0.3 },
  { first: "reversed", share: 0.3 },
];

/** m; levels nearer than this count as met */
const met = 1e-7;
const mostPours = 3000;

export function pour(
  bodies: readonly Body[],
  start: ReadonlyMap<PartId, number>,
  ways: readonly Way[],
  order: Order,
): Poured {
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
  for (const [id, at] of start) if (byId.has(id)) setLevel(id, at);

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
      setLevel(to.id, levelOfVolume(to, now));
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
  const held = volume.get(from.id) as number;
  const received = (at: number) =>
    levelOfVolume(to, (volume.get(to.id) as number) + Math.max(0, held - waterVolume(from, at))) + way.opening;
  if (received(way.bar.level) <= way.bar.level) return way.bar.level;
  let low = way.bar.level;
  let high = before;
  for (let i = 0; i < 60 && high - low > 1e-9; i++) {
    const middle = (low + high) / 2;
    if (middle > received(middle)) high = middle;
    else low = middle;
  }
  return high;
}
