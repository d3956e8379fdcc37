import { cloggingOf, mediaOf } from "../document/defaults.ts";
import { nameOf } from "../powerCut/words.ts";
import { partsOf, withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

const times = 10;

export const mediaClogged: FaultKind = {
  code: "mediaClogged",
  cases: ({ section }) =>
    partsOf(section, "vessel")
      .filter((vessel) => mediaOf(vessel).length > 0)
      .map((vessel) => ({
        title: `Media of ${nameOf(section, vessel.id)} clogged, ${times} times the loss`,
        part: vessel.id,
        section: withParts(section, { ...vessel, clogging: cloggingOf(vessel) * times }),
        run: "pumped",
      })),
};
