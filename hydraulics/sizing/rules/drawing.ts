/** Vessels and flow beside the ponds' water. */
import { mediaOf } from "../../document/defaults.ts";
import type { PartId, Pond, Section, Vessel } from "../../document/section.ts";
import { planArea, waterArea, waterVolume } from "../../document/volumes.ts";
import type { RunningState } from "../../solver/running.ts";
import { judged, type Rule } from "./rule.ts";

export function drawingRules(
  section: Section,
  ponds: readonly Pond[],
  vessels: readonly Vessel[],
  running: RunningState,
): readonly Rule[] {
  const pondVolume = ponds.reduce((sum, pond) => sum + waterVolume(pond, pond.waterLevel), 0);
  const pondArea = ponds.reduce((sum, pond) => sum + waterArea(pond, pond.waterLevel), 0);
  if (pondVolume <= 0) return [];
  const gross = vessels.reduce((sum, vessel) => sum + planArea(vessel) * (vessel.rimLevel - vessel.baseLevel), 0);
  const bed = vessels.reduce((sum, vessel) => sum + (mediaOf(vessel).length > 0 ? planArea(vessel) : 0), 0);
  const flow = [...running.pumps].reduce(
    (sum, [id, pump]) => sum + (drawsFromPond(section, id) ? Math.max(0, pump.flow) : 0),
    0,
  );
  return [
    judged({
      code: "vessel-share",
      part: null,
      rule: "Vessels' gross volume, as a share of the pond's",
      least: 0.1,
      most: null,
      quantity: "share",
      has: vessels.length > 0 ? gross / pondVolume : null,
      source: "common practice",
      where: "10 % or more, before the stone goes in; a large koi example has 25 to 30 %",
    }),
    judged({
      code: "bed-share",
      part: null,
      rule: "Gravel bed's area, as a share of the pond's surface",
      least: 0.1,
      most: null,
      quantity: "share",
      has: bed > 0 ? bed / pondArea : null,
      source: "published",
      where: "a water-garden society's note: 10 to 15 %, double for koi; others build 20 to 50 %",
    }),
    judged({
      code: "pond-turnover",
      part: null,
      rule: "Pond volumes an hour",
      least: 0.25,
      most: 2,
      quantity: "turnover",
      has: flow > 0 ? (flow * 3600) / pondVolume : null,
      source: "published",
      where: "nursery, society, club and sellers' pages: a quarter to two an hour",
    }),
  ];
}

const drawsFromPond = (section: Section, id: PartId): boolean => {
  const pump = section.parts.get(id);
  if (pump?.kind !== "pump") return false;
  return pump.in === undefined || section.parts.get(pump.in)?.kind === "pond";
};
