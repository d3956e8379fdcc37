/** A network whose pumps stand still, at the first moment of a cut: every body's level given, mouths broken that lie
 * over the water or at its surface. */
import type { PartId } from "../document/section.ts";
import type { Network } from "../network/network.ts";
import { systemOf } from "../solver/steady.ts";
import type { Solved, System } from "../solver/system.ts";
import { atEdge } from "./engine.ts";
import { primesOf } from "./primes.ts";

/** @param levels m, of every body */
export function solveAtLevels(
  network: Network,
  levels: ReadonlyMap<PartId, number>,
): { readonly system: System; readonly solved: Solved } {
  const system = systemOf(network, levels);
  for (const { mouth, body } of primesOf(network, "stopped")) {
    mouth.limited = false;
    // As in the run that follows: a vessel that nothing feeds stands at its mouth's edge, a hair over or under it.
    mouth.broken = (levels.get(body) as number) <= mouth.mouth.edge + atEdge;
  }
  return { system, solved: system.solve() };
}
