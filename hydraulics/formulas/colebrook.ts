/** The friction factor of turbulent flow in a full pipe, to machine precision.
 *     1/√f = −2·log10( ε/(3.7·D) + 2.51/(Re·√f) )        f, Re, ε/D dimensionless
 * Holds from Re 4,000 to 1e8 and ε/D up to 0.05; `range.ts` reports the rest.
 * Source: C. F. Colebrook, Turbulent flow in pipes, J. Inst. Civ. Eng. 11 (1939), the equation as usually printed.
 * Ours: ε/D is taken as 1 at most, so that no roughness, however absurd, makes the logarithm change sign. */

const perLn10 = 1 / Math.LN10;

/** The roughness term ε/(3.7·D), capped as said above. */
export const roughnessTerm = (roughness: number, D: number): number => Math.min(roughness / D, 1) / 3.7;

/** x = 1/√f at a Reynolds number, k being the roughness term.
 * Newton on x + 2·log10(k + 2.51·x/Re) = 0: the left side is so nearly straight that three steps from an
 * explicit start within 3 % end at the last digit; a fixed count keeps the result smooth in Re. */
export function inverseRootFriction(Re: number, k: number): number {
  const perX = 2.51 / Re;
  let x = -2 * perLn10 * Math.log(k + 5.74 / Re ** 0.9);
  // Far below Re 4000 the start, not the equation, can lose its sign.
  if (!(x > 0.5)) x = 0.5;
  for (let step = 0; step < 4; step++) {
    const inside = k + perX * x;
    const change = (x + 2 * perLn10 * Math.log(inside)) / (1 + (2 * perLn10 * perX) / inside);
    x -= change;
    if (Math.abs(change) < 1e-9 * x) break;
  }
  return x;
}

/** f itself. */
export function colebrook(Re: number, relativeRoughness: number): number {
  const x = inverseRootFriction(Re, Math.min(relativeRoughness, 1) / 3.7);
  return 1 / (x * x);
}
