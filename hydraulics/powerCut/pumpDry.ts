/** When a running pump's water is down to its intake. */
import type { PartId } from "../document/section.ts";
import type { CutRun } from "./cut.ts";

/** m: a pump that takes what comes stands this near to its edge at most */
const atEdge = 2e-3;

/** s by pump; a pump whose intake stays covered is absent. */
export function pumpDryTimes({ network, run }: Pick<CutRun, "network" | "run">): ReadonlyMap<PartId, number> {
  const bodies = [...network.bodies.keys()];
  const times = new Map<PartId, number>();
  for (const { pump, link } of network.pumps.values()) {
    if (pump.in === undefined || !link?.running) continue;
    const index = bodies.indexOf(pump.in);
    const first = run.moments.find(({ levels }) => (levels[index] as number) <= pump.z + atEdge);
    if (first) times.set(pump.id, first.time);
  }
  return times;
}
