/** The level at which a vessel's outlets have stopped: the lowest stop among them.
 *
 * An outlet stops at the highest of its mouth's lowest point, its inverts, and the resting level of what it leads to
 * (of a pond: the lower of its running level and its lowest sill; of a vessel without an outlet: its level). At a tee
 * the water goes on by the lowest of the ways that lead away. So a resting level is the lowest, over all ways out, of
 * the highest sill on the way: a way round through a tee or a vessel costs nothing but its sills, and each tee is
 * looked at once, however many ways lead to it. */
import type { PartId, Vessel } from "../document/section.ts";
import { GravityLink } from "./links/gravityLink.ts";
import { outside } from "./links/link.ts";
import { outletsOf } from "./outlets.ts";
import type { Steady } from "./steady.ts";

/** a step from a tee, or from a vessel by an outlet */
interface Way {
  readonly link: GravityLink;
  readonly sill: number;
  readonly to: number;
}

/** A body that an outlet leads to, and the highest sill on the lowest way there; null for the ground. */
interface Reach {
  readonly body: PartId | null;
  readonly sill: number;
}

/** A state does not change, and every vessel's figures ask for its levels. */
const known = new WeakMap<Steady, ReadonlyMap<PartId, number>>();

/** null without outlets */
export function restingLevel(state: Steady, { id }: Vessel): number | null {
  const levels = known.get(state) ?? restingLevels(state);
  known.set(state, levels);
  return levels.get(id) ?? null;
}

/** Of each vessel whose outlets lead anywhere. */
function restingLevels(state: Steady): ReadonlyMap<PartId, number> {
  const { bodies } = state.network;
  const reaches = reachesOf(state);
  const levels = new Map([...reaches.keys()].map((id) => [id, Number.NEGATIVE_INFINITY]));
  const beyond = (id: PartId | null): number => {
    const model = id === null ? undefined : bodies.get(id);
    if (!model) return Number.NEGATIVE_INFINITY;
    if (model.body.kind === "pond") return pondStop(state, model.body.id, model.body.waterLevel);
    const level = levels.get(model.body.id);
    return level !== undefined && level < Number.POSITIVE_INFINITY
      ? level
      : (state.system.head[model.surface] as number);
  };
  // From below, so that vessels that lead back to each other rest at the sills between them. Each round follows every
  // way one vessel further.
  for (let rounds = reaches.size; rounds >= 0; rounds--) {
    let changed = false;
    for (const [id, ways] of reaches) {
      const level = ways.reduce((low, way) => Math.min(low, Math.max(way.sill, beyond(way.body))), Infinity);
      changed ||= level !== levels.get(id);
      levels.set(id, level);
    }
    if (!changed) break;
  }
  return new Map([...levels].filter(([, level]) => Number.isFinite(level)));
}

function pondStop({ network }: Steady, id: PartId, waterLevel: number): number {
  let level = waterLevel;
  for (const { spillway } of network.spillways.values())
    if (spillway.from === id) level = Math.min(level, spillway.crestZ);
  return level;
}

/** By vessel that has outlets: where they lead. */
function reachesOf(state: Steady): ReadonlyMap<PartId, readonly Reach[]> {
  const { bodies, links } = state.network;
  const bodyAt = new Map<number, PartId>();
  for (const [id, { surface, column }] of bodies)
    for (const node of [surface, ...column.map((opening) => opening.node)]) bodyAt.set(node, id);
  const waysFrom = new Map<number, Way[]>();
  const lead = (from: number, way: Way) => {
    const ways = waysFrom.get(from);
    if (ways) ways.push(way);
    else waysFrom.set(from, [way]);
  };
  for (const link of links) {
    if (!(link instanceof GravityLink)) continue;
    if (link.forward) lead(link.i, { link, sill: link.forward.sill, to: link.j });
    if (link.backward) lead(link.j, { link, sill: link.backward.sill, to: link.i });
  }
  const reaches = new Map<PartId, readonly Reach[]>();
  for (const { body } of bodies.values()) {
    if (body.kind !== "vessel") continue;
    const found = outletsOf(state, body).flatMap((outlet): readonly Reach[] =>
      outlet.kind === "sill"
        ? [{ body: null, sill: outlet.spillway.crestZ }]
        : reachedBy({ link: outlet.link, sill: outlet.law.sill, to: outlet.towards }, waysFrom, bodyAt),
    );
    if (found.length > 0) reaches.set(body.id, found);
  }
  return reaches;
}

/** The bodies that a way out leads to, by the tees on it. */
function reachedBy(
  first: Way,
  waysFrom: ReadonlyMap<number, readonly Way[]>,
  bodyAt: ReadonlyMap<number, PartId>,
): readonly Reach[] {
  const lowest = new Map<number, number>([[first.to, first.sill]]);
  const waiting = [first.to];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (node === outside || bodyAt.has(node)) continue;
    const sofar = lowest.get(node) as number;
    for (const { link, sill, to } of waysFrom.get(node) ?? []) {
      const highest = Math.max(sofar, sill);
      // Not back down the outlet itself; and again only where this way is a lower one.
      if (link === first.link || highest >= (lowest.get(to) ?? Number.POSITIVE_INFINITY)) continue;
      lowest.set(to, highest);
      waiting.push(to);
    }
  }
  return [...lowest].flatMap(([node, sill]): readonly Reach[] => {
    const body = bodyAt.get(node);
    return node === outside ? [{ body: null, sill }] : body === undefined ? [] : [{ body, sill }];
  });
}
