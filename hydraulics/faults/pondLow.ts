import { nameOf } from "../powerCut/words.ts";
import { partsOf } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

/** m under the drawn level: a hot month, or a leak */
const low = 0.1;

export const pondLow: FaultKind = {
  code: "pondLow",
  cases: ({ section }) =>
    partsOf(section, "pond").map((pond) => ({
      title: `${nameOf(section, pond.id)} 100 mm low`,
      part: pond.id,
      section,
      run: "pumped",
      levels: new Map([[pond.id, Math.max(pond.bedLevel, pond.waterLevel - low)]]),
    })),
};
