import { mediaOf } from "../document/defaults.ts";
import type { PartId, Section } from "../document/section.ts";
import { bedSlices, planArea } from "../document/volumes.ts";
import { stoneDensity } from "../formulas/stoneDensity.ts";
import { type MaterialRow, plainRow } from "./row.ts";
import { mm } from "./sizeWords.ts";

/** Stone by its grain, as it lies in all vessels. */
export function stoneRows(section: Section): readonly MaterialRow[] {
  const byGrain = new Map<string, { volume: number; mass: number; parts: PartId[]; what: string }>();
  for (const part of section.parts.values()) {
    if (part.kind !== "vessel" || mediaOf(part).length === 0) continue;
    for (const { from, to, grain, porosity } of bedSlices(part)) {
      const volume = (to - from) * planArea(part);
      const key = `media: ${mm(grain)}`;
      const row = byGrain.get(key) ?? { volume: 0, mass: 0, parts: [], what: `stone, ${mm(grain)}` };
      byGrain.set(key, {
        ...row,
        volume: row.volume + volume,
        mass: row.mass + volume * (1 - porosity) * stoneDensity,
        parts: row.parts.includes(part.id) ? row.parts : [...row.parts, part.id],
      });
    }
  }
  return [...byGrain].map(([key, { volume, mass, parts, what }]) =>
    plainRow({ key, group: "media", what, priced: "kilogram", amount: mass, volume, mass, parts }),
  );
}
