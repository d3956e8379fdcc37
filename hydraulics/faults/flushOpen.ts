import { valveOpen, valveRole } from "../document/defaults.ts";
import { nameOf } from "../powerCut/words.ts";
import { partsOf, withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

export const flushOpen: FaultKind = {
  code: "flushOpen",
  cases: ({ section }) =>
    partsOf(section, "valve")
      .filter((valve) => valveRole(valve) === "flush" && valveOpen(valve) < 1)
      .map((valve) => ({
        title: `${nameOf(section, valve.id)} left open`,
        part: valve.id,
        section: withParts(section, { ...valve, open: 1 }),
        run: "pumped",
      })),
};
