/** Openings and sills. */
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import { orificeFlow } from "../../../hydraulics/formulas/orifice.ts";
import { velocityHead } from "../../../hydraulics/formulas/totalHead.ts";
import { sharpWeirFactor, weirFactor, weirFlow } from "../../../hydraulics/formulas/weir.ts";
import type { Checks } from "../hold.ts";

export const orificeAndWeirChecks: Checks = {
  "inward-tube": ({ holeArea_m2, Cd, head_m }) => orificeFlow(head_m, holeArea_m2, Cd),
  "jet-100mm-2m": ({ orifice_m, Cd, level_1_m }) => orificeFlow(level_1_m, boreArea(orifice_m), Cd),
  // The source counts the velocity of approach; we do not (a pond stands still),
  // so it is added here as the source does.
  "weir-sharp-approach-metric": ({ crest_m, head_m, coefficient_m_half_s, channel_width_m, crest_height_m, alpha }) => {
    const flowAt = (head: number) => (weirFlow(head, crest_m) * coefficient_m_half_s) / weirFactor("sharp");
    let Q = flowAt(head_m);
    for (let step = 0; step < 50; step++) {
      const approach = alpha * velocityHead(Q / (channel_width_m * (head_m + crest_height_m)));
      Q = coefficient_m_half_s * crest_m * ((head_m + approach) ** 1.5 - approach ** 1.5);
    }
    return Q;
  },
  "weir-broad-1": ({ crest_m, head_m }) => weirFlow(head_m, crest_m, "broad"),
  "weir-6ft-15in": ({ width_m, head_m, Cd }) => sharpWeirFactor(Cd) * width_m * head_m ** 1.5,
  "weir-width": ({ flow_m3_s, head_m }) => flow_m3_s / weirFlow(head_m, 1),
  "weir-cd-400mm": ({ flow_m3_s, width_m, head_m }) => flow_m3_s / (sharpWeirFactor(1) * width_m * head_m ** 1.5),
  "weir-5m-600mm": ({ width_m, head_m, Cd }) => sharpWeirFactor(Cd) * width_m * head_m ** 1.5,
  "weir-broad-factor": {
    ours: weirFactor("broad"),
    because: "3.087 ft^½/s is 1.7043; ours is the rounded metric form",
  },
};
