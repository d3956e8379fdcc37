/** The last resort where Newton's method does not settle: water is given time.
 *
 * Every junction keeps a little water and every body its own: over a short step all heads then stay nearly where they
 * are and each link finds its own flow, so that no step leaps. The state is followed with growing steps until it rests;
 * in a monotone network every such step has one answer close by, and the rest is the steady state. Where parts hang
 * together by nothing but closed ways, Newton's steps are thousands of metres long, and only time brings them home.
 *
 * Bodies go along where their level is sought, and what drips in goes on rising to the highest level at which nothing
 * leaves; in a time step of the caller's they keep to that one. */
import { drip, type Equations, type Judged } from "./equations.ts";
import { Keep } from "./keep.ts";
import { aimedBalance, type Newton, type Solved } from "./newton.ts";

/** From where heads and flows stand. */
export function settleInTime(equations: Equations, newton: Newton): Solved {
  const { nodes, given, base } = equations;
  const callers = equations.timeStep;
  const good = new Keep(equations);
  good.save();
  const moving = nodes.map(({ store }, v) => !given[v] && (callers === 0 || !store));
  const before = new Float64Array(nodes.length);
  let spent = 0;
  let rested: Judged | null = null;
  let dt = 1;
  for (let k = 0; k < 80 && dt < 1e16 && dt > 1e-6 && !rested; k++) {
    equations.junctionStep = dt;
    if (callers === 0) equations.timeStep = dt;
    for (let v = 0; v < moving.length; v++) {
      if (!moving[v]) continue;
      before[v] = equations.keptIn(v);
      base[v] = (before[v] as number) + (nodes[v]?.store ? drip * dt : 0);
    }
    let step = newton.run(30, 1);
    if (!step.converged) {
      good.restore();
      spent += step.iterations;
      step = newton.run(80, 0.4);
    }
    spent += step.iterations;
    if (step.converged) {
      let moved = 0;
      for (let v = 0; v < moving.length; v++)
        if (moving[v]) moved = Math.max(moved, Math.abs(equations.keptIn(v) - (before[v] as number)) / dt);
      if (dt > 1e5 && moved <= aimedBalance) rested = judgeAtRest(equations, callers);
      good.save();
    } else good.restore();
    dt *= step.converged ? 4 : 0.2;
  }
  equations.junctionStep = 0;
  equations.timeStep = callers;
  if (rested) return { ...rested, iterations: spent };
  const last = newton.run(120, 0.5);
  return { ...last, iterations: spent + last.iterations };
}

/** The state as it stands, judged by the caller's own equations; null where it does not meet every one. */
function judgeAtRest(equations: Equations, callers: number): Judged | null {
  const { timeStep, junctionStep } = equations;
  equations.junctionStep = 0;
  equations.timeStep = callers;
  const seen = equations.judge(equations.linearise());
  equations.give();
  equations.timeStep = timeStep;
  equations.junctionStep = junctionStep;
  return seen.converged ? seen : null;
}
