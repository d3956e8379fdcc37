/** Gravity pipes that may run full and pull: an overflow drawn from below.
 *
 * A gravity pipe whose route rises above the mouth it draws from, and whose full-bore Froude number at the flow is
 * 1 or more or whose outlet is under water, may turn into a siphon (design notes, section 6). In the power cut it
 * is followed as a full line as well, and the worse of the two simulations is the result. A pipe that others carry on
 * at its end, over joints, is one route with them. */
import type { PartId } from "../document/section.ts";
import { froudeFull } from "../formulas/froude.ts";
import { isLineShut } from "../network/chains.ts";
import { crestOfRun, type Entered, endsOf, runFrom, stretchAt } from "../network/onward.ts";
import { GravityLink } from "../solver/links/gravityLink.ts";
import { atRest } from "../solver/rest.ts";
import type { Steady } from "../solver/steady.ts";

export interface BottomDraw {
  readonly pipe: PartId;
  readonly body: PartId;
  readonly mouthLevel: number;
  readonly crestLevel: number;
  readonly froude: number;
  readonly outletCovered: boolean;
}

export function bottomDraws(state: Steady): readonly BottomDraw[] {
  const found: BottomDraw[] = [];
  for (const pipe of state.network.pipes.values()) {
    if (pipe.runs !== "gravity") continue;
    const first = pipe.stretches[0]?.link;
    const last = pipe.stretches.at(-1)?.link;
    if (!(first instanceof GravityLink) || !(last instanceof GravityLink)) continue;
    // At rest the drawn direction says from where it draws.
    const backwards = first.Q < -atRest;
    const upper = backwards ? pipe.to : pipe.from;
    // An overflow is a vessel's: a pipe drawn out of a pond and up to a vessel has never been full. Nor has one, at
    // rest, that is drawn from a lower vessel up to a higher one: no water was ever drawn from there.
    if (upper.kind !== "body" || state.network.bodies.get(upper.opening.body)?.body.kind !== "vessel") continue;
    if (isLineShut(state.network, pipe)) continue;
    const route = runFrom(state.network, { pipe, side: backwards ? "to" : "from" });
    const outlets = endsOf(route).flatMap((end) => (end.kind === "body" ? [end.opening] : []));
    if (outlets.some(({ body }) => levelOf(state, body) > levelOf(state, upper.opening.body) + 1e-6)) continue;
    const crestLevel = crestOfRun(route);
    if (crestLevel <= upper.opening.level + 1e-6) continue;
    // At the mouth: what a tee brings in past it does not fill the arch.
    const froude = Math.max(...route.map(froudeAtEntry));
    const outletCovered = outlets.some(({ body, edge }) => levelOf(state, body) > edge);
    if (froude >= 1 || outletCovered) {
      found.push({
        pipe: pipe.pipe.id,
        body: upper.opening.body,
        mouthLevel: upper.opening.level,
        crestLevel,
        froude,
        outletCovered,
      });
    }
  }
  return found;
}

const froudeAtEntry = (end: Entered): number => froudeFull(stretchAt(end)?.link.Q ?? 0, end.pipe.pipe.bore);

function levelOf({ network, system }: Steady, body: PartId): number {
  const model = network.bodies.get(body);
  return model ? (system.head[model.surface] as number) : Number.NEGATIVE_INFINITY;
}
