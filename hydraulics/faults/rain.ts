import type { PartId, Pond } from "../document/section.ts";
import { levelOfVolume, waterVolume } from "../document/volumes.ts";
import { partsOf } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

/** m of rain on the ponds' own plan at the rim, all at once; what runs in from the ground around is not counted */
const depth = 0.05;

export const rain: FaultKind = {
  code: "rain",
  cases: ({ section }) => {
    const ponds = partsOf(section, "pond");
    if (ponds.length === 0) return [];
    const fallen = (pond: Pond) => depth * pond.width * pond.length;
    const levels = new Map<PartId, number>();
    const spilt = new Map<PartId, number>();
    for (const pond of ponds) {
      const wanted = waterVolume(pond, pond.waterLevel) + fallen(pond);
      const room = waterVolume(pond, pond.rimLevel);
      levels.set(pond.id, levelOfVolume(pond, Math.min(wanted, room)));
      if (wanted > room) spilt.set(pond.id, wanted - room);
    }
    const brings = ponds.reduce((sum, pond) => sum + fallen(pond), 0);
    return [{ title: "50 mm of rain on the pond", part: null, section, run: "pumped", levels, brings, spilt }];
  },
};
