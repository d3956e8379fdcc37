/** Ratio of inertia to viscosity in a full pipe.
 *     Re = V·D/ν = 4·Q/(π·D·ν)        V m/s · D m · ν m²/s kinematic · Q m³/s
 * Laminar below 2,000, turbulent from 4,000. Source: the definition; published/darcyWeisbach.test.ts. */
export const reynolds = (Q: number, D: number, viscosity: number): number =>
  (4 * Math.abs(Q)) / (Math.PI * D * viscosity);
