/** The circular section part-full: ratios to full, Manning's n. */
import {
  corrugatedManningN,
  flowShare,
  fullFlow,
  partFullDepth,
  plasticManningN,
  velocityShare,
} from "../../../hydraulics/formulas/manning.ts";
import { hydraulicRadiusShare, wetAngle, wetAreaShare } from "../../../hydraulics/formulas/partFull.ts";
import { bisect } from "../../support/bisect.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

/** Q/Qfull at which `partFullDepth`, the function the report uses, gives that depth. */
const flowOfDepth = (depth: number) => {
  const full = fullFlow(0.1, 0.01);
  // Over 0.938 of the bore only the ratio itself is defined: there the pipe runs full.
  if (depth > 0.938) return flowShare(depth);
  return bisect(0, 1.0757, (share) => (partFullDepth(share * full, 0.1, 0.01) ?? 1) - depth);
};
const ratio = ({ depthRatio }: Numbers) => flowOfDepth(depthRatio);
const flow = ({ depth_ratio }: Numbers) => flowOfDepth(depth_ratio);

export const partFullChecks: Checks = {
  "manning-ratio-0.1": ratio,
  "manning-ratio-0.2": ratio,
  "manning-ratio-0.4": ratio,
  "manning-ratio-0.5": ratio,
  "manning-ratio-0.6": ratio,
  "manning-ratio-0.7": ratio,
  "manning-ratio-0.9": ratio,
  "part-full-0.3-area": ({ depth_ratio }) => wetAreaShare(wetAngle(depth_ratio)) / (Math.PI / 4),
  "part-full-0.3-radius": ({ depth_ratio }) => 4 * hydraulicRadiusShare(wetAngle(depth_ratio)),
  "part-full-0.3-velocity": ({ depth_ratio }) => velocityShare(depth_ratio),
  "part-full-0.3-flow": flow,
  "part-full-flow-0.5": flow,
  "part-full-flow-0.8": flow,
  "part-full-flow-0.94": flow,
  "part-full-area-0.6": ({ depth_ratio }) => wetAreaShare(wetAngle(depth_ratio)),
  "part-full-radius-0.6": ({ depth_ratio }) => hydraulicRadiusShare(wetAngle(depth_ratio)),
  "manning-n-pvc": { ours: plasticManningN },
  "manning-n-corrugated-pe": { ours: corrugatedManningN },
};
