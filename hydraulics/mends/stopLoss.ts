/** A pond that falls because water is lost: what mends the finding that loses it. */
import { largerReturns } from "./largerPipe.ts";
import { lowerMouth } from "./lowerMouth.ts";
import { raiseVentEnd } from "./raiseVentEnd.ts";
import type { Remedy } from "./remedy.ts";
import { shutFlush } from "./shutFlush.ts";

const causes: ReadonlyMap<string, readonly Remedy[]> = new Map([
  ["vent-loses-water", [raiseVentEnd]],
  ["open-end-loses-water", [shutFlush]],
  ["overtops-running", [largerReturns, lowerMouth]],
]);

export const stopLoss: Remedy = function* (trouble) {
  for (const cause of trouble.assessed.findings) {
    for (const remedy of causes.get(cause.code) ?? []) yield* remedy({ ...trouble, finding: cause });
  }
};
