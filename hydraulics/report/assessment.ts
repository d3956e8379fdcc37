/** Everything that is said of one drawing: what a report prints and the editor shows. */
import type { FaultResult } from "../faults/fault.ts";
import type { Finding } from "../findings/finding.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { Starts } from "../powerCut/starts.ts";
import type { Running } from "../solver/running.ts";

export interface Assessment {
  readonly running: Running;
  /** null where there is no running state to start from */
  readonly powerCut: PowerCut | null;
  /** null where they were not asked for, or there is no running state */
  readonly starts: Starts | null;
  readonly findings: readonly Finding[];
  /** worst first; empty where the survey was not asked for */
  readonly faults: readonly FaultResult[];
}
