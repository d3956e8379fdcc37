/** When a running pump's water is down to its intake. */
import type { PartId } from "../document/section.ts";
import type { CutRun } from "./cut.ts";
import type { Moment } from "./engine.ts";

/** m: a pump that takes what comes stands this near to its edge at most */
const atEdge = 2e-3;

/** Between two moments a level is taken for a straight line of the time. */
function levelReachedAt(before: Moment, after: Moment, index: number, level: number): number {
  const [was, is] = [before.levels[index] as number, after.levels[index] as number];
  return before.time + ((after.time - before.time) * (level - was)) / (is - was);
}

/** s by pump; a pump whose intake stays covered is absent. */
export function pumpDryTimes({ network, run }: Pick<CutRun, "network" | "run">): ReadonlyMap<PartId, number> {
  const bodies = [...network.bodies.keys()];
  const times = new Map<PartId, number>();
  for (const { pump, link } of network.pumps.values()) {
    if (pump.in === undefined || !link?.running) continue;
    const index = bodies.indexOf(pump.in);
    const bare = pump.z + atEdge;
    const first = run.moments.findIndex(({ levels }) => (levels[index] as number) <= bare);
    const [before, after] = [run.moments[first - 1], run.moments[first]];
    if (!after) continue;
    times.set(pump.id, before ? levelReachedAt(before, after, index, bare) : after.time);
  }
  return times;
}
