/** Pipes too fast, and supplies too slow to keep dirt moving. */

import { boreArea } from "../formulas/circle.ts";
import { atRest } from "../solver/rest.ts";
import type { PipeReading } from "../solver/running.ts";
import type { Finding } from "./finding.ts";
import { largestFlow } from "./largestFlow.ts";
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
    const loss = reading.frictionLoss + reading.fittingLoss;
    return [
      {
        code: "pipe-fast",
        severity: "warning",
        parts: [id],
        text: `Water runs through ${called(section, id)} at ${speedWords(velocity)}: over ${hard ? "3 m/s it is loud and strikes hard when it stops" : `1.5 m/s losses run up (common practice), and it takes ${loss.toFixed(2)} m of head`}.`,
        remedy: "Take the next larger bore.",
        figures: { velocity, frictionLoss: reading.frictionLoss, loss },
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
    if (largestFlow(reading.stretches) <= atRest || velocity >= slow) return [];
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
const velocityOf = (stretches: PipeReading["stretches"], bore: number): number =>
  largestFlow(stretches) / boreArea(bore);
