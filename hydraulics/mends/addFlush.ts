/** A pipe with a valve out of the vessel's base. */
import { siteOf } from "../document/defaults.ts";
import { drawnWidth } from "../document/geometry.ts";
import type { Pipe, Section, Valve, Vessel } from "../document/section.ts";
import { returnsOf } from "../faults/returnsOf.ts";
import { boreWords, called } from "../findings/words.ts";
import { freshId, lastRank } from "./freshPart.ts";
import type { Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";

/** m: how far the pipe leads off, and how far out its valve stands */
const out = 0.5;
const valveAt = 0.15;
/** the mouth's lowest point over the base */
const offBase = 0.005;
const usualBore = 0.044;

export const addFlush: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const vessel = id === undefined ? undefined : section.parts.get(id);
  if (vessel?.kind !== "vessel") return;
  const bores = returnsOf(assessed.state)
    .filter((one) => one.vessel === vessel.id)
    .map(({ pipe }) => pipe.pipe.bore);
  // As large as the return, but never taller than the vessel's lowest fifth, where it would count as a flush no more.
  const bore = Math.min(Math.max(...bores, usualBore), 0.3 * (vessel.rimLevel - vessel.baseLevel));
  const z = upToMm(vessel.baseLevel + bore / 2 + offBase);
  // Sunk into the ground there is nowhere for the sludge to run to.
  if (z < siteOf(section).groundLevel) return;
  for (const side of [1, -1] as const) {
    const x = placeBeside(section, vessel, side);
    if (x === null) continue;
    const pipe: Pipe = {
      kind: "pipe",
      id: freshId(section, "flush"),
      rank: lastRank(section),
      from: { part: vessel.id, z, mouth: "side" },
      to: { open: true, x, z },
      route: [],
      bore: Number(bore.toFixed(4)),
      material: "pvc",
    };
    const valve: Valve = {
      kind: "valve",
      id: freshId(section, "flush-valve"),
      rank: pipe.rank + 1,
      type: "ball",
      on: { pipe: pipe.id, at: valveAt },
      open: 0,
      role: "flush",
    };
    const parts = new Map([...section.parts, [pipe.id, pipe] as const, [valve.id, valve] as const]);
    yield {
      label: `Lead a flush pipe of ${boreWords(bore)} with a valve out of ${called(section, vessel.id)} at its base`,
      section: { ...section, parts },
    };
    return;
  }
};

/** x of an open end beside the vessel, over no other body; null where there is no room. */
function placeBeside(section: Section, vessel: Vessel, side: 1 | -1): number | null {
  const wall = side === 1 ? vessel.x + drawnWidth(vessel) : vessel.x;
  const x = Number((wall + side * out).toFixed(3));
  for (const part of section.parts.values()) {
    if ((part.kind !== "pond" && part.kind !== "vessel") || part.id === vessel.id) continue;
    const meets =
      side === 1 ? part.x <= x && part.x + drawnWidth(part) >= wall : part.x + drawnWidth(part) >= x && part.x <= wall;
    if (meets) return null;
  }
  return x;
}
