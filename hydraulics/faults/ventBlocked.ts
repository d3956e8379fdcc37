import { ventOpen } from "../document/defaults.ts";
import { nameOf } from "../powerCut/words.ts";
import { partsOf, withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

/** Ice, lime or an insect shuts the vent. The cut starts from the drawn running state all the same. */
export const ventBlocked: FaultKind = {
  code: "ventBlocked",
  cases: ({ section }) =>
    partsOf(section, "vent")
      .filter((vent) => ventOpen(vent) > 0)
      .map((vent) => ({
        title: `Power cut with ${nameOf(section, vent.id)} blocked`,
        part: vent.id,
        section: withParts(section, { ...vent, open: 0 }),
        run: "powerCut",
      })),
};
