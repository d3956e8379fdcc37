import { isStuckOpen } from "../document/defaults.ts";
import { nameOf } from "../powerCut/words.ts";
import { partsOf, withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

/** Debris holds the flap open. */
export const checkValveStuck: FaultKind = {
  code: "checkValveStuck",
  cases: ({ section }) =>
    partsOf(section, "checkValve")
      .filter((valve) => !isStuckOpen(valve))
      .map((valve) => ({
        title: `Power cut with ${nameOf(section, valve.id)} stuck open`,
        part: valve.id,
        section: withParts(section, { ...valve, stuckOpen: true }),
        run: "powerCut",
      })),
};
