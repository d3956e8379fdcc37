/** A pipe led another way, with all that stands on it: each valve, vent and tee goes to the nearest place of the new
 * line, and a vent's open end never falls below its tee. */
import { lineLength, nearestOnLine, pipeLine, placeAt } from "../document/geometry.ts";
import type { Part, PartId, Pipe, PipeEnd, Point, Section } from "../document/section.ts";
import { along, upToMm } from "./rounding.ts";

export interface Way {
  readonly route: readonly Point[];
  readonly from?: PipeEnd;
  readonly to?: PipeEnd;
}

export function relaid(section: Section, pipe: Pipe, way: Way): Section {
  const before = pipeLine(section, pipe);
  const led: Pipe = { ...pipe, ...way };
  const parts = new Map<PartId, Part>(section.parts);
  parts.set(pipe.id, led);
  const bare: Section = { ...section, parts };
  const after = pipeLine(bare, led);
  const most = lineLength(after);
  const placed = (at: number): number => along(Math.min(most, nearestOnLine(after, placeAt(before, at)).at));
  const moved = new Map<PartId, Part>(parts);
  for (const part of parts.values()) {
    if (part.kind === "vent" && part.on.pipe === pipe.id) {
      const at = placed(part.on.at);
      const tee = placeAt(after, at)[1];
      const end = part.openEndZ === undefined ? {} : { openEndZ: Math.max(part.openEndZ, upToMm(tee)) };
      moved.set(part.id, { ...part, on: { pipe: pipe.id, at }, ...end });
    } else if ((part.kind === "valve" || part.kind === "checkValve") && part.on.pipe === pipe.id) {
      moved.set(part.id, { ...part, on: { pipe: pipe.id, at: placed(part.on.at) } });
    } else if (part.kind === "pipe" && part.id !== pipe.id) {
      const end = (side: PipeEnd): PipeEnd =>
        "pipe" in side && side.pipe === pipe.id ? { pipe: pipe.id, at: placed(side.at) } : side;
      moved.set(part.id, { ...part, from: end(part.from), to: end(part.to) });
    }
  }
  return { ...section, parts: moved };
}
