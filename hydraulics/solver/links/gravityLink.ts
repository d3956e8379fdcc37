/** A stretch of gravity pipe between two bodies, tees or the air (i at its `from` side). It draws from whichever
 * side stands high enough for it; each way has its own law (`capacity/gravityLaw.ts`), null where there is none:
 * from an end in air, against a check valve. */

import type { GravityLaw } from "../../capacity/gravityLaw.ts";
import type { PartId } from "../../document/section.ts";
import { boreArea } from "../../formulas/circle.ts";
import { BranchLink, mostThrough, outside } from "./link.ts";

/** s/m², where a drowned stretch has no length and bears nothing: Newton's slope only, the law is untouched. */
const flattest = 1e-6;
/** m lost under water, a thousandth of the solver's tolerance: below it a chord stands for the curve, as in full lines.
 * A square law is flat at rest: flows would halve from step to step and a trickle be left that nothing drives. */
const chordUnder = 1e-9;

export class GravityLink extends BranchLink {
  declare readonly forward: GravityLaw | null;
  declare readonly backward: GravityLaw | null;
  declare drowned: boolean;
  /** m³/s and m: no flow up to this needs more than that by this law, receiving level aside */
  declare private bounded: GravityLaw | null;
  declare private boundFlow: number;
  declare private boundLevel: number;

  constructor(part: PartId, i: number, j: number, forward: GravityLaw | null, backward: GravityLaw | null) {
    super(part, i, j);
    this.forward = forward;
    this.backward = backward;
    this.drowned = false;
    this.bounded = null;
    this.boundFlow = 0;
    this.boundLevel = 0;
    const bore = (forward ?? backward)?.path.bore ?? 0;
    this.most = mostThrough(boreArea(bore));
  }

  linearise(Hi: number, Hj: number): void {
    if (this.Q === 0) this.Q = this.opens(Hi, Hj);
    if (this.Q > 0 && this.forward) return this.run(this.forward, this.Q, Hi, Hj, 1);
    if (this.Q < 0 && this.backward) return this.run(this.backward, -this.Q, Hj, Hi, -1);
    this.drowned = false;
    this.shut(Hi, Hj);
    this.Q = 0;
  }

  private opens(Hi: number, Hj: number): number {
    const atJ = this.j === outside ? Number.NEGATIVE_INFINITY : Hj;
    const atI = this.i === outside ? Number.NEGATIVE_INFINITY : Hi;
    if (this.forward && atI > Math.max(this.forward.sill, atJ)) return this.forward.flowAt(atI, atJ);
    if (this.backward && atJ > Math.max(this.backward.sill, atI)) return -this.backward.flowAt(atJ, atI);
    return 0;
  }

  /** `up` is the side drawn from; `sign` turns the result into the link's own direction. */
  private run(law: GravityLaw, flow: number, up: number, down: number, sign: 1 | -1): void {
    const { openingHead, receives } = law.path;
    let lost = law.through(flow) - openingHead;
    const chord = lost < chordUnder ? chordOf(law) : 0;
    if (chord > 0) lost = chord * flow;
    const held = receives ? down + lost + openingHead : Number.NEGATIVE_INFINITY;
    let needed = held;
    let slope: number;
    if (!(this.drowned && this.staysDrowned(law, flow, held))) {
      const free = law.free(flow);
      this.drowned = held > free;
      if (!this.drowned) needed = free;
    }
    if (this.drowned) slope = chord > 0 ? chord : law.throughSlope(flow);
    else slope = law.slope;
    const drop = up - needed;
    const g = 1 / Math.max(slope, flattest);
    const flowThere = flow + drop * g;
    this.q = sign * flowThere;
    this.residual = drop;
    const other = this.drowned ? g : 0;
    this.gi = sign === 1 ? g : other;
    this.gj = sign === 1 ? other : g;
  }

  /** Whether what holds the water up from below does so beyond doubt: what the way itself needs rises with the flow,
   * and takes critical depths to find. Where it is deep under, twice the flow needs no more, and that is asked once. */
  private staysDrowned(law: GravityLaw, flow: number, held: number): boolean {
    if (this.bounded !== law || flow > this.boundFlow) {
      this.bounded = law;
      this.boundFlow = 2 * flow;
      this.boundLevel = law.free(this.boundFlow);
    }
    return held > this.boundLevel;
  }

  override accept(Q: number, Hi: number, Hj: number): void {
    const was = this.Q;
    if (was === 0) return;
    const sameWay = Math.sign(Q) === Math.sign(was);
    if (sameWay && Math.abs(Q) >= 0.2 * Math.abs(was)) {
      this.Q = Q;
      return;
    }
    // The law is S-shaped, so a step may fall short of what the level carries, or shoot through zero: where water
    // still stands over the sill the flow is what the new heads carry, but no more than before.
    // From far off it would leap the other way as far: no further than it was, but for a trickle about to turn.
    if (!sameWay && Math.abs(Q) <= 10 * Math.abs(was) && this.turns(was, Hi, Hj)) {
      this.Q = Q;
      return;
    }
    const law = was > 0 ? this.forward : this.backward;
    if (!law || !this.stillRuns(was, Hi, Hj)) {
      this.Q = sameWay ? Q : 0;
      return;
    }
    const carried =
      was > 0
        ? law.flowAt(Hi, this.j === outside ? Number.NEGATIVE_INFINITY : Hj)
        : law.flowAt(Hj, this.i === outside ? Number.NEGATIVE_INFINITY : Hi);
    this.Q = Math.sign(was) * Math.min(Math.abs(was), carried);
  }

  /** Whether it is all under water: then it is a line like any other, and turns where its heads do. */
  private turns(was: number, Hi: number, Hj: number): boolean {
    const law = was > 0 ? this.backward : this.forward;
    if (!this.drowned || law === null) return false;
    return law.path.receives && (was > 0 ? Hj : Hi) > law.sill;
  }

  private stillRuns(was: number, Hi: number, Hj: number): boolean {
    const law = was > 0 ? this.forward : this.backward;
    const up = was > 0 ? Hi : Hj;
    const down = was > 0 ? Hj : Hi;
    return law !== null && up > law.sill && (!law.path.receives || up > down);
  }
}

const chords = new WeakMap<GravityLaw, number>();

/** s/m²: what a drowned way loses for each flow below that at which it loses `chordUnder`; 0 where it loses nothing. */
function chordOf(law: GravityLaw): number {
  const known = chords.get(law);
  if (known !== undefined) return known;
  let flow = 1e-6;
  let lost = law.through(flow) - law.path.openingHead;
  for (let step = 0; step < 20 && lost > 0 && Math.abs(lost / chordUnder - 1) > 1e-12; step++) {
    flow *= Math.sqrt(chordUnder / lost);
    lost = law.through(flow) - law.path.openingHead;
  }
  const chord = lost > 0 ? lost / flow : 0;
  chords.set(law, chord);
  return chord;
}
