import { performance } from "node:perf_hooks";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { largeNetwork, planOf, type Shape, shapes } from "../support/grids.ts";

// Laws of thousands of lines are made before each run: what they leave behind is swept on nobody's time but theirs.
setFlagsFromString("--expose-gc");
const sweep = runInNewContext("gc") as (how: { type: "minor" }) => void;

const sizes = [30, 100, 300, 1000, 3000, 10_000];

/** Chains, trees and grids of full pipes: `cold` puts the equations in order and solves them from a flat guess,
 * `again` solves after the upper pond moved by 10 mm. `grows` is the exponent of time against pipes from 100 on. */
export function benchLarge(): void {
  for (const shape of shapes) {
    const rows = sizes.map((pipes) => measure(shape, pipes));
    for (const { pipes, order, cold, again, iterations } of rows) {
      console.log(
        `${`${shape} of ${pipes} pipes`.padEnd(26)} cold ${ms(cold)} (order ${ms(order)}, ${iterations} steps)   again ${ms(again)}`,
      );
    }
    const grown = rows.filter(({ pipes }) => pipes >= 90);
    const by = (time: "cold" | "again" | "order") => exponent(grown.map((row) => [row.pipes, row[time]])).toFixed(2);
    console.log(
      `${`${shape}, grows`.padEnd(26)} cold n^${by("cold")}   order n^${by("order")}   again n^${by("again")}`,
    );
  }
}

const ms = (time: number): string => `${time.toFixed(2).padStart(8)} ms`;

interface Row {
  readonly pipes: number;
  /** medians, ms */
  readonly order: number;
  readonly cold: number;
  readonly again: number;
  readonly iterations: number;
}

function measure(shape: Shape, wanted: number): Row {
  const plan = planOf(shape, wanted);
  const order: number[] = [];
  const cold: number[] = [];
  const again: number[] = [];
  let iterations = 0;
  // Small ones often, for the compiler to have seen the code; large ones a few times.
  const runs = Math.max(9, Math.round(6000 / wanted));
  for (let run = 0; run < runs; run++) {
    const large = largeNetwork(plan, { seed: 1 + run });
    sweep({ type: "minor" });
    const start = performance.now();
    const system = large.open();
    const ordered = performance.now();
    const solved = system.solve();
    const end = performance.now();
    if (!solved.converged) throw new Error(`a ${shape} of ${wanted} pipes does not converge`);
    iterations = solved.iterations;
    order.push(ordered - start);
    cold.push(end - start);
    system.head[0] = (system.head[0] as number) + 0.01;
    const changed = performance.now();
    if (!system.solve().converged) throw new Error(`a ${shape} of ${wanted} pipes does not converge again`);
    again.push(performance.now() - changed);
  }
  return { pipes: plan.pairs.length, order: median(order), cold: median(cold), again: median(again), iterations };
}

const median = (times: readonly number[]): number =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;

/** The slope of log time against log size, least squares. */
function exponent(points: readonly (readonly [size: number, time: number])[]): number {
  const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
  const x = points.map(([size]) => Math.log(size));
  const y = points.map(([, time]) => Math.log(time));
  const mx = mean(x);
  const my = mean(y);
  const covariance = mean(x.map((value, k) => (value - mx) * ((y[k] as number) - my)));
  return covariance / mean(x.map((value) => (value - mx) ** 2));
}
