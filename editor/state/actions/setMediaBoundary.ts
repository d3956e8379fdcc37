import type { PartId, Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { even } from "./rounded.ts";

const thinnest = 0.01;

/** Moves the top of one media layer to a level; the layer above takes or gives what it can, the top of the
 * bed moves up to the rim at most. */
export function setMediaBoundary(section: Section, id: PartId, layer: number, level: number): Changed {
  return act(section, `Set the stone in ${partNameById(section, id)}`, (draft) => {
    const vessel = draft.parts.get(id);
    if (vessel?.kind !== "vessel") return;
    const here = vessel.media?.[layer];
    if (!here) return;
    const below = vessel.media?.slice(0, layer).reduce((sum, { depth }) => sum + depth, 0) ?? 0;
    const above = vessel.media?.[layer + 1];
    const most = above ? here.depth + above.depth - thinnest : vessel.rimLevel - vessel.baseLevel - below;
    const depth = even(Math.min(Math.max(level - vessel.baseLevel - below, thinnest), most));
    if (above) above.depth = even(here.depth + above.depth - depth);
    here.depth = depth;
  });
}
