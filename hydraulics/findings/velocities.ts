/** Pipes too fast, and supplies too slow to keep dirt moving. */

import { atRest } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, speedWords } from "./words.ts";

/** m/s. Common practice, no source: 1.5 for economy, 3 for noise and shocks, 0.3 to carry fine dirt along. */
const fast = 1.5;
const veryFast = 3;
const slow = 0.3;

export const pipeFast: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return [...running.pipes].flatMap(([id, reading]): Finding[] => {
    const bore = state.network.pipes.get(id)?.pipe.bore;
    if (bore === undefined) return [];
    const velocity = velocityOf(reading.stretches, bore);
    if (velocity <= fast) return [];
    const hard = velocity > veryFast;
    return [
      {
        code: "pipe-fast",
        severity: "warning",
        parts: [id],
        text: `Water runs through ${called(section, id)} at ${speedWords(velocity)}: over ${hard ? "3 m/s it is loud and strikes hard when it stops" : "1.5 m/s most of the pump's work goes into the pipe"}.`,
        remedy: "Take the next larger bore.",
        figures: { velocity, frictionLoss: reading.frictionLoss },
      },
    ];
  });
};

export const pipeSlow: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return [...running.pipes].flatMap(([id, reading]): Finding[] => {
    const bore = state.network.pipes.get(id)?.pipe.bore;
    if (bore === undefined || reading.runs !== "full") return [];
    const velocity = velocityOf(reading.stretches, bore);
    const flow = Math.max(...reading.stretches.map(([, , Q]) => Math.abs(Q)), 0);
    if (flow <= atRest || velocity >= slow) return [];
    return [
      {
        code: "pipe-slow",
        severity: "warning",
        parts: [id],
        text: `Water creeps through ${called(section, id)} at ${speedWords(velocity)}: below 0.3 m/s dirt settles in a line (common practice).`,
        remedy: "Take a smaller bore, or clear the line by a strong flush now and then.",
        figures: { velocity },
      },
    ];
  });
};

/** m/s in the fastest stretch between tees. */
const velocityOf = (stretches: readonly (readonly [number, number, number])[], bore: number): number =>
  Math.max(...stretches.map(([, , Q]) => Math.abs(Q)), 0) / ((Math.PI * bore ** 2) / 4);
