/** Sills between bodies, or from one onto the ground. */
import { crestKind } from "../document/defaults.ts";
import type { PartId, Spillway } from "../document/section.ts";
import { outside } from "../solver/links/link.ts";
import { SpillwayLink } from "../solver/links/spillwayLink.ts";
import { bottomIn } from "./bodies.ts";
import { bodyIn, type Draft } from "./draft.ts";
import type { Network } from "./network.ts";

export function addSpillways(draft: Draft): Network["spillways"] {
  const spillways = new Map<PartId, { spillway: Spillway; link: SpillwayLink }>();
  for (const part of draft.section.parts.values()) {
    if (part.kind !== "spillway") continue;
    const onto = part.to === "ground" ? outside : bodyIn(draft, part.to).surface;
    const link = draft.add(
      new SpillwayLink(part.id, bodyIn(draft, part.from).surface, onto, {
        crestLevel: Math.max(part.crestZ, bottomIn(draft)(part.from)),
        width: part.width,
        crest: crestKind(part),
      }),
    );
    spillways.set(part.id, { spillway: part, link });
  }
  return spillways;
}
