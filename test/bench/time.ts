/** Times one piece of work and prints a line. Times hang on the machine, so they are printed and never tested. */
import { performance } from "node:perf_hooks";

const warmUp = 200;
const lasting = 1500;

export function time(name: string, work: () => unknown): void {
  // Until the compiler has seen the code often enough, a run says more about it than about us.
  repeat(work, warmUp);
  const took = repeat(work, lasting).sort((a, b) => a - b);
  const at = (share: number) => (took[Math.floor(share * (took.length - 1))] ?? Number.NaN).toFixed(2).padStart(8);
  console.log(`${name.padEnd(46)} median ${at(0.5)} ms   95 % ${at(0.95)} ms   ${took.length} runs`);
}

/** Milliseconds of each run, for as long as said and five times at least. */
function repeat(work: () => unknown, milliseconds: number): number[] {
  const took: number[] = [];
  const end = performance.now() + milliseconds;
  while (performance.now() < end || took.length < 5) {
    const start = performance.now();
    work();
    took.push(performance.now() - start);
  }
  return took;
}
