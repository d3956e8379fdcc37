/** Headwater above the invert that a round side mouth needs to take a flow in (inlet control).
 *     X = 1.811·Q/(A·√D)
 *     not submerged, X ≤ 3.5:  HW/D = Ec/D + K·X^M (form 1)
 *     submerged, X ≥ 4:        HW/D = c·X² + Y
 *     between: a straight line in X        HW, Ec, D m · Q m³/s · A m² · K, M, c, Y by the edge
 * Holds for a barrel that does not run full behind its mouth. The equations scale with Q/(A·√(gD)), so they
 * hold for bores far under a culvert's, down to about 25 mm, where surface tension begins to count (range.ts says so).
 * Source: FHWA, Hydraulic Design of Highway Culverts (HDS-5), 2nd and 3rd ed., appendix A, circular sections;
 *     published/culvertInlet.test.ts.
 * Ours: the slope term (−0.5·S, within 1 % of the bore for any garden pipe) is left out. */
import { boreArea } from "./circle.ts";
import { criticalEnergy, criticalEnergySlope } from "./criticalFlow.ts";

export interface InletEdge {
  readonly K: number;
  readonly M: number;
  readonly c: number;
  readonly Y: number;
}

/** The edges of appendix A, form 1, circular. The program uses the square edge in a wall. */
export const inletEdges = {
  squareEdge: { K: 0.0098, M: 2.0, c: 0.0398, Y: 0.67 },
  grooveEndHeadwall: { K: 0.0018, M: 2.0, c: 0.0292, Y: 0.74 },
  grooveEndProjecting: { K: 0.0045, M: 2.0, c: 0.0317, Y: 0.69 },
  headwallCorrugated: { K: 0.0078, M: 2.0, c: 0.0379, Y: 0.69 },
  mitredCorrugated: { K: 0.021, M: 1.33, c: 0.0463, Y: 0.75 },
  thinWallProjecting: { K: 0.034, M: 1.5, c: 0.0553, Y: 0.54 },
} as const satisfies Record<string, InletEdge>;

export const inletFactor = 1.811;
const lastUnsubmerged = 3.5;
const firstSubmerged = 4;

/** Ec/D at X = 3.5: the equations scale, so any bore gives it. */
const energyAtLast = criticalEnergy((lastUnsubmerged * boreArea(1)) / inletFactor, 1);

/** HW/D of a submerged mouth. */
export const submergedShare = (X: number, { c, Y }: InletEdge): number => c * X * X + Y;

/** HW/D of a mouth that is not submerged, form 1, from its own Ec/D. */
export const unsubmergedShare = (X: number, energyShare: number, { K, M }: InletEdge): number =>
  energyShare + K * X ** M;

/** m above the invert of the mouth; 0 without flow. */
export function inletHead(Q: number, D: number, edge: InletEdge = inletEdges.squareEdge): number {
  if (!(Q > 0)) return 0;
  const X = (inletFactor * Q) / (boreArea(D) * Math.sqrt(D));
  if (X >= firstSubmerged) return D * submergedShare(X, edge);
  if (X <= lastUnsubmerged) return D * unsubmergedShare(X, criticalEnergy(Q, D) / D, edge);
  const low = unsubmergedShare(lastUnsubmerged, energyAtLast, edge);
  return D * (low + (X - lastUnsubmerged) * bridgeSlope(edge));
}

/** dHW/dQ, s/m². */
export function inletHeadSlope(Q: number, D: number, edge: InletEdge = inletEdges.squareEdge): number {
  const perFlow = inletFactor / (boreArea(D) * Math.sqrt(D));
  const X = Math.max(Q, 0) * perFlow;
  if (X >= firstSubmerged) return D * perFlow * 2 * edge.c * X;
  if (X <= lastUnsubmerged)
    return criticalEnergySlope(Math.max(Q, 0), D) + D * perFlow * edge.K * edge.M * X ** (edge.M - 1);
  return D * perFlow * bridgeSlope(edge);
}

function bridgeSlope(edge: InletEdge): number {
  const low = unsubmergedShare(lastUnsubmerged, energyAtLast, edge);
  return (submergedShare(firstSubmerged, edge) - low) / (firstSubmerged - lastUnsubmerged);
}
