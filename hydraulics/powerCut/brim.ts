/** Water poured into a body that is full to its rim runs over at once: the body stands at its rim, and the rest
 * goes to the ground or into the body it spills into. Poured water has no rate, so it is no matter for the engine,
 * whose steps would take the excess for a flow. */
import { levelOfVolume, waterVolume } from "../document/volumes.ts";
import type { Network } from "../network/network.ts";
import { outside } from "../solver/links/link.ts";
import type { System } from "../solver/system.ts";

export interface Spilt {
  /** m³ over each rim, by link */
  readonly over: ReadonlyMap<number, number>;
  readonly toGround: number;
}

export function spillOverRims(network: Network, system: System): Spilt {
  const over = new Map<number, number>();
  let toGround = 0;
  const bodies = [...network.bodies.values()];
  // Each pass hands water one body on; a ring of full bodies would go round for ever and is cut off.
  for (let pass = 0; pass < bodies.length; pass++) {
    let moved = false;
    for (const { body, surface, rim } of bodies) {
      const excess = waterVolume(body, system.head[surface] as number) - waterVolume(body, body.rimLevel);
      if (excess <= 1e-12) continue;
      moved = true;
      system.head[surface] = body.rimLevel;
      const e = network.links.indexOf(rim);
      over.set(e, (over.get(e) ?? 0) + excess);
      const next = bodies.find((other) => other.surface === rim.j && rim.j !== outside);
      if (!next) toGround += excess;
      else
        system.head[next.surface] = levelOfVolume(
          next.body,
          waterVolume(next.body, system.head[next.surface] as number) + excess,
        );
    }
    if (!moved) break;
  }
  return { over, toGround };
}
