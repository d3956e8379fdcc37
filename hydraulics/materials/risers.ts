import { ventEnd } from "../document/defaults.ts";
import { pipeLine, placeAt } from "../document/geometry.ts";
import type { PartId, Section } from "../document/section.ts";
import { samePlace } from "../network/pipeModel.ts";
import { type MaterialRow, plainRow } from "./row.ts";
import { mm } from "./sizeWords.ts";

/** Risers of vents: a tube of the vent's own bore. */
export function riserRows(section: Section): readonly MaterialRow[] {
  const byBore = new Map<string, { length: number; parts: PartId[] }>();
  for (const part of section.parts.values()) {
    if (part.kind !== "vent") continue;
    const pipe = section.parts.get(part.on.pipe);
    if (pipe?.kind !== "pipe") continue;
    const tee = placeAt(pipeLine(section, pipe), part.on.at)[1];
    const length = ventEnd(part, tee) - tee;
    if (length < samePlace) continue;
    const row = byBore.get(mm(part.bore)) ?? { length: 0, parts: [] };
    byBore.set(mm(part.bore), { length: row.length + length, parts: [...row.parts, part.id] });
  }
  return [...byBore].map(([bore, { length, parts }]) =>
    plainRow({
      key: `pipe: riser, ${bore}`,
      group: "pipe",
      what: `tube for breathers, bore ${bore}`,
      priced: "metre",
      amount: length,
      length,
      parts,
    }),
  );
}
