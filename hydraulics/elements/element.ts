/** What everything that loses head offers to the solver.
 * Built once a solve, so that constants stand outside Newton's loop. */
export interface Loss {
  /** m of head lost at the flow Q m³/s; never falls as Q rises */
  loss(Q: number): number;
  /** s/m², the derivative of `loss`, above zero at rest */
  slope(Q: number): number;
  /** m⁴/s, the integral of `loss` from 0 to Q, which the line search lowers */
  content(Q: number): number;
  /** loss and slope at once, where they share their costly part; `into` is kept by the caller */
  linear?(Q: number, into: LossAndSlope): void;
  /** the law as numbers alone, where it is of such a shape: a loop over many pipes reads them and calls no law */
  readonly numbers?: LawNumbers;
}

/** power: r·max(|Q|, knee)^power·Q, sloped like a chord under the knee and (power + 1) times as steep over it;
 * rough: headPerPhi·φ(|Q|·reynoldsPerFlow) with the sign of Q, φ of `darcyWeisbach.ts` for the roughness term k. */
export type LawNumbers =
  | { readonly shape: "power"; readonly r: number; readonly power: number; readonly knee: number }
  | { readonly shape: "rough"; readonly headPerPhi: number; readonly reynoldsPerFlow: number; readonly k: number };

export interface LossAndSlope {
  loss: number;
  slope: number;
}

/** Both at once, for Newton's loop. */
export function lossAndSlope(law: Loss, Q: number, into: LossAndSlope): void {
  if (law.linear) return law.linear(Q, into);
  into.loss = law.loss(Q);
  into.slope = law.slope(Q);
}

export interface Source {
  readonly title: string;
  readonly where: string;
  /** the test, under test/, that holds the element against it */
  readonly checkedIn: string;
}

export interface Element<P> {
  readonly source: Source;
  build(p: P): Loss;
}
