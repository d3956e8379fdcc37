/** Specific energy and critical flow; more in criticalFlow.test.ts. */
import { g } from "../../../hydraulics/formulas/gravity.ts";
import { alternateDepths, specificEnergy } from "../../../hydraulics/formulas/specificEnergy.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const alternate = ({ specific_energy_m, q2_over_2g_m3 }: Numbers) => {
  const depths = alternateDepths(specific_energy_m, q2_over_2g_m3);
  if (!depths) throw new Error("no depth has so little energy");
  return depths;
};

export const criticalFlowChecks: Checks = {
  "specific-energy-2m": ({ flow_m3_s, width_m, depth_m }) => specificEnergy(flow_m3_s / width_m, depth_m),
  "depth-over-hump": ({ flow_m3_s, width_m, depth_m, rise_m }) => {
    const q = flow_m3_s / width_m;
    return alternateDepths(specificEnergy(q, depth_m) - rise_m, q ** 2 / (2 * g))?.tranquil ?? Number.NaN;
  },
  "alternate-depth-high": (n) => alternate(n).tranquil,
  "alternate-depth-low": (n) => alternate(n).shooting,
};
