/** Critical flow in a round pipe that runs part-full.
 *     Q²·T/(g·A³) = 1,  A = D²/8·(2φ − sin 2φ),  T = D·sin φ,  yc = D/2·(1 − cos φ)
 *     Ec = yc + V²/2g = yc + A/(2T)        φ half the angle at the centre · all lengths m · Q m³/s
 * Holds for any Q: as Q grows yc nears D and Ec nears D + V²/2g of the full bore.
 * Source: V. T. Chow, Open-Channel Hydraulics (1959), chapter 4; published/criticalFlow.test.ts.
 * Ours: solved to machine precision, without a branch that could leave a step: Newton on the logarithm of the
 * condition, against ln φ in the lower part and ln(π − φ) in the upper, where each is nearly a straight line. The
 * energy rises without limit in slope at Q = 0; below a specific energy of about 1e-10·D its chord stands in. */
import { g } from "./gravity.ts";

/** q = Q/√(g·D^5) below which the chord stands in. */
const smallest = 1e-20;
/** φ from which π − φ is the unknown, and the q² there. */
const turn = 2.3;
const turnSquare = segment(turn) ** 3 / (512 * Math.sin(turn));

/** m */
export function criticalDepth(Q: number, D: number): number {
  const q = dimensionless(Q, D);
  if (q >= smallest) return D * depthShare(criticalAngle(q));
  return (q / smallest) * D * depthShare(criticalAngle(smallest));
}

/** m above the invert */
export function criticalEnergy(Q: number, D: number): number {
  const q = dimensionless(Q, D);
  return q >= smallest ? D * energyShare(q) : (q / smallest) * D * energyShare(smallest);
}

/** dEc/dQ, s/m². At critical flow the energy does not change with depth, so it is V/(g·A). */
export function criticalEnergySlope(Q: number, D: number): number {
  const q = dimensionless(Q, D);
  const perFlow = 1 / (D * D * Math.sqrt(g * D));
  if (q < smallest) return (D * energyShare(smallest) * perFlow) / smallest;
  const A = (D * D * segment(criticalAngle(q))) / 8;
  return Math.abs(Q) / (g * A * A);
}

const dimensionless = (Q: number, D: number): number => Math.abs(Q) / (D * D * Math.sqrt(g * D));

function energyShare(q: number): number {
  const angle = criticalAngle(q);
  return criticalEnergyAt(depthShare(angle), segment(angle) / (8 * Math.sin(Math.abs(angle))));
}

/** Of any section: the energy of critical flow at a depth, from the hydraulic depth A/T there (V²/2g is half of it). */
export const criticalEnergyAt = (depth: number, hydraulicDepth: number): number => depth + hydraulicDepth / 2;

/** Of any section: the critical flow through a wet area with that hydraulic depth, Q = A·√(g·A/T). */
export const criticalFlowAt = (area: number, hydraulicDepth: number, gravity = g): number =>
  area * Math.sqrt(gravity * hydraulicDepth);

/** yc/D. An angle below 0 is −(π − φ), the way the upper part is written. */
function depthShare(angle: number): number {
  return angle < 0 ? Math.cos(angle / 2) ** 2 : Math.sin(angle / 2) ** 2;
}

/** 2φ − sin 2φ = 8A/D². Below 2φ = 0.5 the difference would eat its digits, so it is a series. */
function segment(angle: number): number {
  const x = 2 * angle;
  if (angle < 0) return 2 * Math.PI + x - Math.sin(x);
  if (x >= 0.5) return x - Math.sin(x);
  const s = x * x;
  return ((x * s) / 6) * (1 - (s / 20) * (1 - (s / 42) * (1 - (s / 72) * (1 - (s / 110) * (1 - s / 156)))));
}

/** φ where it is at most `turn`, else −(π − φ). */
function criticalAngle(q: number): number {
  const square = q * q;
  return square <= turnSquare ? lowerAngle(square) : -upperAngle(square);
}

/** (2φ − sin 2φ)³/(512·sin φ) = q². Next to the invert that is φ⁸/216; Newton in ln φ takes it from there. */
function lowerAngle(square: number): number {
  const wanted = Math.log(512 * square);
  let angle = (216 * square) ** 0.125;
  // The leading term falls short as the section closes (1.78 for 2.3 at the turn): fitted by us to within 0.13 %.
  const a2 = angle * angle;
  angle *= 1.00009 + a2 * (0.053885 + a2 * (0.0063285 + a2 * 0.0020265));
  for (let step = 0; step < 20; step++) {
    const sine = Math.sin(angle);
    const area = segment(angle);
    const miss = 3 * Math.log(area) - Math.log(sine) - wanted;
    const slope = angle * ((12 * sine * sine) / area - Math.cos(angle) / sine);
    const change = miss / slope;
    angle *= Math.exp(-change);
    if (Math.abs(change) < 1e-7) break;
  }
  return angle;
}

/** The same with ψ = π − φ: next to the crown sin ψ = (2π)³/(512·q²). */
function upperAngle(square: number): number {
  const wanted = Math.log(512 * square);
  let angle = Math.min((2 * Math.PI) ** 3 / (512 * square), Math.PI - turn);
  for (let step = 0; step < 20; step++) {
    const sine = Math.sin(angle);
    const area = segment(-angle);
    const miss = 3 * Math.log(area) - Math.log(sine) - wanted;
    const slope = -angle * ((12 * sine * sine) / area + Math.cos(angle) / sine);
    const change = miss / slope;
    angle *= Math.exp(-change);
    if (Math.abs(change) < 1e-7) break;
  }
  return angle;
}
