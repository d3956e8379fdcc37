/** The whole way for one drawing: section → running state → power cut → starts → findings (→ faults). */
import type { Section } from "./document/section.ts";
import { surveyFaults } from "./faults/index.ts";
import { findingsOf } from "./findings/index.ts";
import { simulatePowerCut } from "./powerCut/simulate.ts";
import { startsOf } from "./powerCut/starts.ts";
import type { Assessment } from "./report/assessment.ts";
import { readings } from "./solver/readings.ts";
import type { Running } from "./solver/running.ts";
import { deliveredRange, straightLineFlows } from "./solver/scatter.ts";
import { type Steady, solveSteady } from "./solver/steady.ts";

export interface AssessOptions {
  /** with the survey of single faults; it takes as long as a dozen power cuts */
  readonly faults?: boolean;
  /** without the range from uncertain inputs: for a drag, where every millisecond counts */
  readonly quick?: boolean;
  /** with start-up and restart, and what is to be found in them; unless told otherwise, where it is not quick */
  readonly starts?: boolean;
  /** the state of a section that differs a little, to start from */
  readonly from?: Steady;
}

export interface Assessed extends Assessment {
  /** what a later `assess` may start from */
  readonly state: Steady;
}

/** As data alone: the solver's own state holds functions, and goes through no port. */
export const dataOf = ({ state: _, ...assessment }: Assessed): Assessment => assessment;

/** The running state alone, with its readings. */
export function solveRunning(
  section: Section,
  options: Pick<AssessOptions, "quick" | "from"> = {},
): { running: Running; state: Steady } {
  const state = solveSteady(section, options.from ? { from: options.from } : {});
  const { solved } = state;
  if (!solved.converged) {
    const largestResidual = Math.max(solved.balance, solved.loss);
    return { state, running: { converged: false, parts: solved.parts, largestResidual, iterations: state.iterations } };
  }
  const delivered = options.quick
    ? { range: new Map(), straight: new Map() }
    : { range: deliveredRange(section, state), straight: straightLineFlows(section, state) };
  return { state, running: readings(state, delivered) };
}

/** Everything that can be said of a section. Never throws for a section that passed the reader; a state that
 * did not converge is said, without numbers. */
export function assess(section: Section, options: AssessOptions = {}): Assessed {
  const { running, state } = solveRunning(section, options);
  if (!running.converged)
    return {
      state,
      running,
      powerCut: null,
      starts: null,
      findings: findingsOf({ section, running, state, powerCut: null, starts: null }),
      faults: [],
    };
  const powerCut = simulatePowerCut(section, state);
  const starts = (options.starts ?? !options.quick) ? startsOf(section, state, powerCut) : null;
  const findings = findingsOf({ section, running, state, powerCut, starts });
  const faults = options.faults ? [...surveyFaults(section, { state, powerCut })] : [];
  return { state, running, powerCut, starts, findings, faults };
}

/** What was assessed without its starts, with them. */
export function withStarts(section: Section, assessed: Assessed): Assessed {
  const { running, state, powerCut } = assessed;
  if (!powerCut || assessed.starts) return assessed;
  const starts = startsOf(section, state, powerCut);
  return { ...assessed, starts, findings: findingsOf({ section, running, state, powerCut, starts }) };
}
