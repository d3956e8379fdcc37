/** A pond that falls because water is lost: what mends the finding that loses it. */
import { addReturn } from "./addReturn.ts";
import { largerReturns } from "./largerPipe.ts";
import { lowerMouth } from "./lowerMouth.ts";
import { raiseSill, sillIntoPond } from "./otherSill.ts";
import { raiseVentEnd } from "./raiseVentEnd.ts";
import type { Remedy } from "./remedy.ts";
import { shutEnd } from "./shutEnd.ts";
import { shutFlush } from "./shutFlush.ts";

const causes: ReadonlyMap<string, readonly Remedy[]> = new Map([
  ["vent-loses-water", [raiseVentEnd]],
  ["open-end-loses-water", [shutFlush, shutEnd]],
  ["sill-loses-water", [raiseSill, sillIntoPond]],
  ["overtops-running", [largerReturns, lowerMouth, addReturn]],
]);

export const stopLoss: Remedy = function* (trouble) {
  for (const cause of trouble.assessed.findings) {
    for (const remedy of causes.get(cause.code) ?? []) yield* remedy({ ...trouble, finding: cause });
  }
};
