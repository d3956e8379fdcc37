/** Which of a pipe's losses lie on a reach of it. */
import type { Bears } from "./network.ts";
import { samePlace } from "./pipeModel.ts";

interface Reach {
  readonly start: number;
  readonly end: number;
  /** the reach begins at the pipe's own `from` end, and bears what lies there */
  readonly startIsEnd: boolean;
}

/** A tee's run loss lies on the reach that begins at it; a bend, or what else lies at a node, on the one that ends
 * at it. So every loss lies on one reach, whatever cuts the pipe into reaches. */
export function bearsOn(
  { bears }: { readonly bears: readonly Bears[] },
  { start, end, startIsEnd }: Reach,
): readonly Bears[] {
  return bears.filter(({ at, what }) => {
    if (what === "teeRun") return Math.abs(at - start) < samePlace;
    return (at > start + samePlace || (startIsEnd && at >= start - samePlace)) && at <= end + samePlace;
  });
}
