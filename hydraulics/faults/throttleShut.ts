import { valveOpen, valveRole } from "../document/defaults.ts";
import { nameOf } from "../powerCut/words.ts";
import { partsOf, withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

export const throttleShut: FaultKind = {
  code: "throttleShut",
  cases: ({ section }) =>
    partsOf(section, "valve")
      .filter((valve) => valveRole(valve) === "throttle" && valveOpen(valve) > 0)
      .map((valve) => ({
        title: `${nameOf(section, valve.id)} shut`,
        part: valve.id,
        section: withParts(section, { ...valve, open: 0 }),
        run: "pumped",
      })),
};
