/** FHWA HDS-5: constants, both equations, and readings of its nomographs. */
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import { criticalEnergyAt, criticalFlowAt } from "../../../hydraulics/formulas/criticalFlow.ts";
import {
  type InletEdge,
  inletEdges,
  inletFactor,
  inletHead,
  submergedShare,
  unsubmergedShare,
} from "../../../hydraulics/formulas/culvertInlet.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

/** HW/D of our law, whole, where the entry gives Q/(A·√D). Bore 1 m: the law scales. */
const submerged =
  (edge: InletEdge) =>
  ({ flow_over_area_root_bore_si }: Numbers) =>
    inletHead(flow_over_area_root_bore_si * boreArea(1), 1, edge);
const nomograph =
  (edge: InletEdge) =>
  ({ flow_m3_s, bore_m }: Numbers) =>
    inletHead(flow_m3_s, bore_m, edge) / bore_m;
const box = ({ flow_m3_s, area_m2, rise_m, c, Y }: Numbers) =>
  submergedShare((inletFactor * flow_m3_s) / (area_m2 * Math.sqrt(rise_m)), { K: 0, M: 0, c, Y });
const worksheetSubmerged = ({ q_over_A_sqrtD_m05_s, c, Y, slope_term }: Numbers) =>
  submergedShare(inletFactor * q_over_A_sqrtD_m05_s, { K: 0, M: 0, c, Y }) + slope_term;
const worksheetUnsubmerged = ({ q_over_A_sqrtD_m05_s, Hc_over_D, K, M, slope_term }: Numbers) =>
  unsubmergedShare(inletFactor * q_over_A_sqrtD_m05_s, Hc_over_D, { K, M, c: 0, Y: 0 }) + slope_term;

const constants: readonly (readonly [name: string, edge: InletEdge])[] = [
  ["square-edge-headwall", inletEdges.squareEdge],
  ["groove-end-headwall", inletEdges.grooveEndHeadwall],
  ["groove-end-projecting", inletEdges.grooveEndProjecting],
  ["headwall-metal", inletEdges.headwallCorrugated],
  ["mitred", inletEdges.mitredCorrugated],
  ["thin-wall-projecting", inletEdges.thinWallProjecting],
];
const rows = Object.fromEntries(
  constants.flatMap(([name, edge]) =>
    (["K", "M", "c", "Y"] as const).map((letter) => [`hds5-${name}-${letter}`, { ours: edge[letter] }]),
  ),
);

export const culvertInletChecks: Checks = {
  ...rows,
  "hds5-square-edge-with-headwall-concrete,": { ours: inletEdges.squareEdge.K },
  "hds5-headwall-corrugated": { ours: inletEdges.headwallCorrugated.K },
  "hds5-projecting-corrugated": { ours: inletEdges.thinWallProjecting.K },
  "hds5-submerged-square-edge-with-headwall-concrete,": submerged(inletEdges.squareEdge),
  "hds5-submerged-headwall-corrugated": submerged(inletEdges.headwallCorrugated),
  "hds5-submerged-4": worksheetSubmerged,
  "hds5-submerged-8": worksheetSubmerged,
  "hds5-unsubmerged-0.3": worksheetUnsubmerged,
  "hds5-unsubmerged-1.18": worksheetUnsubmerged,
  // The source's section is an ellipse: the two forms that hold for any section,
  // which criticalFlow.test.ts holds our circle against.
  "hds5-critical-flow-0.4": ({ area_ratio, hydraulic_depth_over_D, g_m_s2 }) =>
    criticalFlowAt(area_ratio, hydraulic_depth_over_D, g_m_s2),
  "hds5-critical-head-0.4": ({ depth_ratio, hydraulic_depth_over_D }) =>
    criticalEnergyAt(depth_ratio, hydraulic_depth_over_D),
  "hds5-nomograph-1b-square-edge-headwall": nomograph(inletEdges.squareEdge),
  "hds5-nomograph-1b-groove-end-headwall": nomograph(inletEdges.grooveEndHeadwall),
  "hds5-nomograph-1b-groove-end-projecting": nomograph(inletEdges.grooveEndProjecting),
  "hds5-nomograph-box-30-75": box,
  "hds5-nomograph-box-0": box,
};
