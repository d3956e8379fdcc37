/** The openings of full lines that can be uncovered, and the level at which a broken line fills again: its crest
 * (the highest point of the pipe that bears the mouth and of what carries it on over joints), or, where no point of it
 * lies above the mouth, 5 mm over the mouth's edge (design notes, section 8). */
import type { PartId } from "../document/section.ts";
import type { Network } from "../network/network.ts";
import { crestOfRun, runFrom } from "../network/onward.ts";
import { outside } from "../solver/links/link.ts";
import type { MouthLink } from "../solver/links/mouthLink.ts";
import type { Prime } from "./engine.ts";

const coveredAgain = 0.005;

export function primesOf(network: Network, pumps: "running" | "stopped"): Prime[] {
  const primes: Prime[] = [];
  const push = (mouth: MouthLink, part: PartId, body: PartId, crest: number, isLimited: boolean) => {
    const { axis, edge } = mouth.mouth;
    const model = network.bodies.get(body);
    if (!model) return;
    primes.push({
      mouth,
      part,
      body,
      surface: model.surface,
      refill: crest > axis + 1e-6 ? crest : edge + coveredAgain,
      isLimited,
      breaks: 0,
    });
  };
  for (const pipe of network.pipes.values()) {
    for (const [side, mouth] of [
      ["from", pipe.mouthFrom],
      ["to", pipe.mouthTo],
    ] as const) {
      const end = pipe[side];
      if (end.kind === "body" && mouth && mouth.i !== outside)
        push(mouth, pipe.pipe.id, end.opening.body, crestOfRun(runFrom(network, { pipe, side })), false);
    }
  }
  for (const { pump, intake, link } of network.pumps.values()) {
    if (!intake || pump.in === undefined) continue;
    const outlet = [...network.pipes.values()].find((pipe) => pipe.from.kind === "pump" && pipe.from.pump === pump.id);
    push(
      intake,
      pump.id,
      pump.in,
      outlet ? crestOfRun(runFrom(network, { pipe: outlet, side: "from" })) : pump.z,
      pumps === "running" && (link?.running ?? false),
    );
  }
  return primes;
}
