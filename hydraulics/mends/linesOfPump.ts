/** The full lines that a pump is joined to, over tees. */
import type { PartId } from "../document/section.ts";
import type { PipeModel } from "../network/network.ts";
import type { Steady } from "../solver/steady.ts";

export function linesOfPump({ network }: Steady, pump: PartId): readonly PipeModel[] {
  const pipes = [...network.pipes.values()];
  const groups = new Set(
    pipes
      .filter(({ from, to }) => [from, to].some((end) => end.kind === "pump" && end.pump === pump))
      .map(({ group }) => group),
  );
  return pipes.filter(({ group, runs }) => runs === "full" && groups.has(group));
}
