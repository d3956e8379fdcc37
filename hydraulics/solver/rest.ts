/** m³/s under which a link is at rest */
export const atRest = 1e-9;
/** A flow as it is shown: a trace left by what is shut is 0. */
export const settle = (Q: number): number => (Math.abs(Q) < atRest ? 0 : Q);
