/** Less water: every running pump slowed, or its line throttled to the same flow. */
import { pumpSpeed } from "../document/defaults.ts";
import type { Part, PartId } from "../document/section.ts";
import { called } from "../findings/words.ts";
import type { Remedy } from "./remedy.ts";

const speeds = [0.9, 0.8, 0.7, 0.6];

export const slowPump: Remedy = function* ({ section }) {
  const pumps = [...section.parts.values()].flatMap((part) =>
    part.kind === "pump" && pumpSpeed(part) > 0 ? [part] : [],
  );
  if (pumps.length === 0) return;
  for (const times of speeds) {
    const parts = new Map<PartId, Part>(section.parts);
    for (const pump of pumps) parts.set(pump.id, { ...pump, speed: Number((pumpSpeed(pump) * times).toFixed(3)) });
    const names = pumps.map(({ id }) => called(section, id)).join(" and ");
    yield { label: `Run ${names} at ${Math.round(times * 100)} % of its speed`, section: { ...section, parts } };
  }
};
