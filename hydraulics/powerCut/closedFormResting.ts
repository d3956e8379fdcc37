/** The level at which a vessel's outlets stop, by the definition in section 8 of the design notes.
 *
 * An outlet stops at the highest of its mouth's lowest point, the invert at each vertex and at its far end, and the
 * resting level of what it leads to; a spillway at its crest. The lowest stop among outlets that are neither flush
 * pipes nor shut; the start level if there is none. Vessels that lead to each other settle as a bottleneck: the lowest
 * way out of the whole chain counts, however the chain is closed. */
import type { PartId, Section } from "../document/section.ts";
import { bodiesOf, gather } from "./closedFormGroups.ts";
import { type Way, waysOut } from "./closedFormWays.ts";

export function restingLevels(section: Section, startLevels: ReadonlyMap<PartId, number>): ReadonlyMap<PartId, number> {
  const { ways } = waysOut(section, {
    ventRatings: new Map(),
    checkValves: "sound",
    pulling: new Set(),
    outletsOnly: true,
  });
  const waysFrom = gather(ways, (way) => way.from);
  const level = new Map<PartId, number>();
  const vessels = bodiesOf(section).filter((body) => body.kind === "vessel");
  for (const body of bodiesOf(section)) {
    if (body.kind === "vessel") continue;
    const sills = (waysFrom.get(body.id) ?? []).filter((way) => section.parts.get(way.via)?.kind === "spillway");
    level.set(body.id, Math.min(startLevels.get(body.id) as number, ...sills.map((way) => way.bar.level)));
  }
  const outlets = new Map(
    vessels.map(({ id }) => [id, (waysFrom.get(id) ?? []).filter((way) => isOutlet(section, way, startLevels))]),
  );
  for (const { id } of vessels)
    level.set(id, outlets.get(id)?.length ? Number.POSITIVE_INFINITY : (startLevels.get(id) as number));
  // One sweep a vessel is enough for the longest chain; fewer where nothing changes any more.
  for (let sweep = 0; sweep < vessels.length; sweep++) {
    let changed = false;
    for (const { id } of vessels) {
      const own = outlets.get(id) as readonly Way[];
      if (own.length === 0) continue;
      const stop = Math.min(...own.map((way) => stopOf(section, way, level)));
      if (stop < (level.get(id) as number)) {
        level.set(id, stop);
        changed = true;
      }
    }
    if (!changed) break;
  }
  for (const { id } of vessels)
    if (!Number.isFinite(level.get(id) as number)) level.set(id, startLevels.get(id) as number);
  return level;
}

/** A sill, a pipe drawn from the vessel, or one drawn towards it that carries water out of it at the running level. */
function isOutlet(section: Section, way: Way, startLevels: ReadonlyMap<PartId, number>): boolean {
  const pipe = section.parts.get(way.via);
  if (pipe?.kind !== "pipe") return true;
  if ("part" in pipe.from && pipe.from.part === way.from) return true;
  return (startLevels.get(way.from) as number) > stopOf(section, way, startLevels);
}

function stopOf(section: Section, way: Way, level: ReadonlyMap<PartId, number>): number {
  if (way.to === "ground" || section.parts.get(way.via)?.kind === "spillway") return way.bar.level;
  return Math.max(way.bar.level, (level.get(way.to) as number) + way.opening);
}
