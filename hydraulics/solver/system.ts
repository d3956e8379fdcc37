/** A network's equations with the ways to solve them, one after the other: Newton's method (`newton.ts`) with whole
 * steps, with half ones, and last the state followed in time until it rests (`inTime.ts`). */
import { Equations, type SystemNode } from "./equations.ts";
import { settleInTime } from "./inTime.ts";
import { Keep } from "./keep.ts";
import type { Link } from "./links/link.ts";
import { Newton, type Solved } from "./newton.ts";

export type { Store, SystemNode } from "./equations.ts";
export type { Solved } from "./newton.ts";

export class System extends Equations {
  private readonly newton: Newton;
  private fresh: Keep | null = null;

  constructor(nodes: readonly SystemNode[], links: readonly Link[]) {
    super(nodes, links);
    this.newton = new Newton(this);
  }

  /** matrices eliminated so far */
  get factorisations(): number {
    return this.newton.factorisations;
  }

  /** Heads and flows from where they stand.
   * @param patient whether the last resort is tried as well: in a time step the caller may rather take a shorter one */
  solve(patient = this.timeStep === 0): Solved {
    if (patient) {
      this.fresh ??= new Keep(this);
      this.fresh.save();
    }
    const plain = this.newton.run(40, 1);
    if (plain.converged) return plain;
    const careful = this.newton.run(120, 0.5);
    const spent = plain.iterations + careful.iterations;
    if (careful.converged || !patient) return { ...careful, iterations: spent };
    // From where everything began, not from wherever Newton's method lost its way.
    this.fresh?.restore();
    const settled = settleInTime(this, this.newton);
    return { ...settled, iterations: spent + settled.iterations };
  }
}
