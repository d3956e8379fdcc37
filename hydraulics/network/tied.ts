/** Which groups of pipes hang on water whose level is known, so that they have a pressure. */
import type { Network } from "./network.ts";

/** Groups with an end in a body, or with a pump that stands in one. */
export function tiedGroups({ pipes, pumps }: Pick<Network, "pipes" | "pumps">): ReadonlySet<number> {
  const tied = new Set<number>();
  for (const { from, to, group } of pipes.values()) {
    for (const end of [from, to]) {
      if (end.kind === "body") tied.add(group);
      if (end.kind === "pump" && pumps.get(end.pump)?.pump.in !== undefined) tied.add(group);
    }
  }
  return tied;
}
