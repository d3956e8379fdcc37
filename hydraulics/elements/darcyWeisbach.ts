/** Darcy-Weisbach friction of a pipe that runs full.
 *     hf = f·L/D·V²/2g        hf, L, D m · V m/s
 *     Re ≤ 2000: f = 64/Re · Re ≥ 4000: f by Colebrook-White (formulas/colebrook.ts)
 *     between:   f = (1−w)·64/Re + w·f_Colebrook,  w = 3s² − 2s³,  s = (Re − 2000)/2000
 * Holds for any liquid in a round pipe; between Re 2000 and 4000 nobody knows f, and the bridge is a convention.
 * Source: Darcy-Weisbach and Colebrook-White as usually printed; published/darcyWeisbach.test.ts.
 * The bridge: design notes, section 2.
 * Ours: the sign follows the flow. Everything is written in φ(Re) = f·Re², so hf = L·ν²/(2g·D³)·φ: φ rises all the
 * way (f_Colebrook lies above 64/Re from Re 2000 on), and in turbulent flow φ = u² with Re = −2·u·log10(k + 2.51/u),
 * which can be differentiated and integrated without a table.
 * Needs L, D, viscosity > 0 and roughness ≥ 0: the network builder joins the ends of a pipe without length. */
import { inverseRootFriction, roughnessTerm } from "../formulas/colebrook.ts";
import { g } from "../formulas/gravity.ts";
import type { Element, LossAndSlope } from "./element.ts";

const laminarLimit = 2000;
const turbulentLimit = 4000;
const perLn10 = 1 / Math.LN10;

/** Abscissas and weights of 8-point Gauss-Legendre on 0..1, for the bridge, which has no closed integral. */
const gauss: readonly (readonly [at: number, weight: number])[] = [
  [-0.9602898564975363, 0.1012285362903763],
  [-0.7966664774136267, 0.2223810344533745],
  [-0.525532409916329, 0.3137066458778873],
  [-0.1834346424956498, 0.362683783378362],
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
].map(([x, w]) => [(1 + x!) / 2, w! / 2] as const);

export const darcyWeisbach: Element<{ L: number; D: number; roughness: number; viscosity: number }> = {
  source: {
    title: "Darcy-Weisbach with Colebrook-White",
    where: "design notes, section 2",
    checkedIn: "published/darcyWeisbach.test.ts",
  },
  build({ L, D, roughness, viscosity }) {
    const k = roughnessTerm(roughness, D);
    const reynoldsPerFlow = 4 / (Math.PI * D * viscosity);
    const headPerPhi = (L * viscosity * viscosity) / (2 * g * D * D * D);
    const turbulentStart = turbulentIntegral(turbulentLimit, k);
    const toBridge = 32 * laminarLimit * laminarLimit;
    const toTurbulent = toBridge + bridgeIntegral(turbulentLimit, k);
    return {
      loss: (Q) => Math.sign(Q) * headPerPhi * phi(Math.abs(Q) * reynoldsPerFlow, k),
      slope: (Q) => headPerPhi * reynoldsPerFlow * phiSlope(Math.abs(Q) * reynoldsPerFlow, k),
      content: (Q) => {
        const Re = Math.abs(Q) * reynoldsPerFlow;
        const integral =
          Re <= laminarLimit
            ? 32 * Re * Re
            : Re < turbulentLimit
              ? toBridge + bridgeIntegral(Re, k)
              : toTurbulent + turbulentIntegral(Re, k) - turbulentStart;
        return (headPerPhi / reynoldsPerFlow) * integral;
      },
      linear: (Q, into) => {
        phiAndSlope(Math.abs(Q) * reynoldsPerFlow, k, into);
        into.loss *= Math.sign(Q) * headPerPhi;
        into.slope *= headPerPhi * reynoldsPerFlow;
      },
      numbers: { shape: "rough", headPerPhi, reynoldsPerFlow, k },
    };
  },
};

/** Darcy's f as the element uses it, for the report. */
export function frictionFactor(Re: number, relativeRoughness: number): number {
  return phi(Re, roughnessTerm(relativeRoughness, 1)) / (Re * Re);
}

/** f·Re² */
function phi(Re: number, k: number): number {
  if (Re <= laminarLimit) return 64 * Re;
  const u = Re / inverseRootFriction(Re, k);
  if (Re >= turbulentLimit) return u * u;
  const s = (Re - laminarLimit) / (turbulentLimit - laminarLimit);
  const w = s * s * (3 - 2 * s);
  return (1 - w) * 64 * Re + w * u * u;
}

function phiSlope(Re: number, k: number): number {
  phiAndSlope(Re, k, kept);
  return kept.slope;
}
const kept: LossAndSlope = { loss: 0, slope: 0 };

/** φ and dφ/dRe: one solution of Colebrook's equation serves both. */
export function phiAndSlope(Re: number, k: number, into: LossAndSlope): void {
  into.loss = 64 * Re;
  into.slope = 64;
  if (Re <= laminarLimit) return;
  const x = inverseRootFriction(Re, k);
  const u = Re / x;
  // dRe/du = x + 2/ln10·(2.51/u)/(k + 2.51/u), from Re = −2·u·log10(k + 2.51/u).
  const turbulent = (2 * u) / (x + (2 * perLn10 * 2.51) / (k * u + 2.51));
  if (Re >= turbulentLimit) {
    into.loss = u * u;
    into.slope = turbulent;
    return;
  }
  const s = (Re - laminarLimit) / (turbulentLimit - laminarLimit);
  const w = s * s * (3 - 2 * s);
  const wSlope = (6 * s * (1 - s)) / (turbulentLimit - laminarLimit);
  into.loss = (1 - w) * 64 * Re + w * u * u;
  into.slope = (1 - w) * 64 + w * turbulent + wSlope * (u * u - 64 * Re);
}

/** ∫φ dRe over the bridge, from Re 2000 on. */
function bridgeIntegral(Re: number, k: number): number {
  const span = Re - laminarLimit;
  let sum = 0;
  for (const [at, weight] of gauss) sum += weight * phi(laminarLimit + at * span, k);
  return sum * span;
}

/** ∫u² dRe of turbulent flow, up to a constant: by parts u²·Re − ∫Re·2u du, Re = −2·u·log10(k + 2.51/u). */
function turbulentIntegral(Re: number, k: number): number {
  const c = 2.51;
  const x = inverseRootFriction(Re, k);
  const u = Re / x;
  // ∫ −4·u²·log10(k + c/u) du = (2/3)·u³·x − 4c/(3·ln10)·∫ u²/(ku + c) du
  const e = (k * u) / c;
  // ∫ u²/(ku + c) du = u³/c·[1/(2e) − 1/e² + ln(1+e)/e³]: for small e the bracket is a series, or its digits cancel.
  const bracket = e > 0.3 ? (e / 2 - 1 + Math.log1p(e) / e) / (e * e) : alternating(e);
  return u * u * Re - ((2 / 3) * u * u * u * x - ((4 * perLn10) / 3) * u * u * u * bracket);
}

/** 1/3 − e/4 + e²/5 − …, for 0 ≤ e ≤ 0.3. */
function alternating(e: number): number {
  let sum = 0;
  for (let term = 28; term >= 0; term--) sum = 1 / (term + 3) - e * sum;
  return sum;
}
