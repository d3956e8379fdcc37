import { pumpSpeed } from "../document/defaults.ts";
import type { Pump } from "../document/section.ts";
import { nameOf } from "../powerCut/words.ts";
import { partsOf, withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";

/** A worn pump at 70 % of its curve: at every flow 70 % of the head, as the scatter of ± 10 % on a curve is read too
 * (not a slower one, whose greatest flow would fall as well). */
const share = 0.7;

export const pumpWeak: FaultKind = {
  code: "pumpWeak",
  cases: ({ section }) =>
    partsOf(section, "pump")
      .filter((pump) => pumpSpeed(pump) > 0)
      .map((pump) => ({
        title: `${nameOf(section, pump.id)} at 70 % of its curve`,
        part: pump.id,
        section: withParts(section, weakened(pump)),
        run: "pumped",
      })),
};

function weakened(pump: Pump): Pump {
  if (pump.curve) return { ...pump, curve: pump.curve.map(([flow, head]) => [flow, head * share] as const) };
  return pump.maxHead === undefined ? pump : { ...pump, maxHead: pump.maxHead * share };
}
