/** Which gravity pipes the judge by levels takes for bottom draws that may pull. */

import { isBody } from "../document/isKind.ts";
import type { PartId, Pipe, PipeEnd, Section } from "../document/section.ts";
import type { Given } from "./closedForm.ts";
import { groupsOf } from "./closedFormGroups.ts";
import { crestOfRoute, routeFrom } from "./closedFormRoute.ts";

/** Gravity pipes that may run full and pull: the route rises above the mouth they draw from, and their outlet is under
 * water or they run fast. Read to the letter: a drowned overflow counts though no water passes it while the pumps run,
 * so that nothing is there to fill it. Drawn from `from`;
 * from `to` only where the water there stands over the whole route. */
export function bottomDraws(section: Section, { startLevels, fastPipes }: Given): ReadonlySet<PartId> {
  const found = new Set<PartId>();
  for (const { pipes, pumps } of groupsOf(section)) {
    if (pumps.length > 0) continue;
    for (const pipe of pipes) {
      if (
        mayPull(section, pipe, "from", startLevels, fastPipes) ||
        mayPull(section, pipe, "to", startLevels, fastPipes)
      )
        found.add(pipe.id);
    }
  }
  return found;
}

/** m: water that has run off over an invert stands this much over it at most, and fills nothing. */
const film = 1e-4;

function mayPull(
  section: Section,
  pipe: Pipe,
  side: "from" | "to",
  startLevels: Given["startLevels"],
  fastPipes: Given["fastPipes"],
): boolean {
  const end = pipe[side];
  const level = levelAt(section, end, startLevels);
  if (level === null || !("part" in end)) return false;
  // A pipe drawn out of a pond and up to a vessel has never been full.
  if (section.parts.get(end.part)?.kind !== "vessel") return false;
  const route = routeFrom(section, pipe, side);
  const top = crestOfRoute(section, route);
  if (top <= (end.z ?? 0) + 1e-6) return false;
  if (side === "to" && level <= top - pipe.bore / 2 + film) return false;
  const outlets = route.ends.flatMap((other) => {
    const below = levelAt(section, other, startLevels);
    return below === null ? [] : [{ below, covered: "part" in other && below >= (other.z ?? 0) }];
  });
  if (outlets.some(({ below }) => below > level + 1e-6)) return false;
  return outlets.some(({ covered }) => covered) || route.pipes.some(({ id }) => fastPipes?.has(id));
}

/** The water level at an end in a body. */
function levelAt(section: Section, end: PipeEnd, levels: ReadonlyMap<PartId, number>): number | null {
  return "part" in end && isBody(section.parts.get(end.part)) ? (levels.get(end.part) as number) : null;
}
