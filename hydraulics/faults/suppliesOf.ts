/** The lines by which the pumps' water comes: full, under pressure, their water running from a pump to a body. */
import { drawnWidth } from "../document/geometry.ts";
import type { Body, Point } from "../document/section.ts";
import type { Network, PipeModel } from "../network/network.ts";
import { atRest } from "../solver/rest.ts";
import type { Steady } from "../solver/steady.ts";

export function suppliesOf({ network }: Steady): readonly PipeModel[] {
  return [...network.pipes.values()].filter((pipe) => {
    // A suction line is no supply: it takes in air where it parts, and its pump runs dry.
    if (pipe.runs !== "full" || pipe.to.kind === "pump") return false;
    return pipe.stretches.some(({ link }) => Math.abs(link.Q) > atRest);
  });
}

/** Which end of a supply the water leaves by into a vessel; null where neither does. */
export function endAtVessel(network: Network, pipe: PipeModel): "from" | "to" | null {
  const isVessel = (end: PipeModel["to"]) =>
    end.kind === "body" && network.bodies.get(end.opening.body)?.body.kind === "vessel";
  if (isVessel(pipe.to) && (pipe.stretches.at(-1)?.link.Q ?? 0) > atRest) return "to";
  return isVessel(pipe.from) && (pipe.stretches[0]?.link.Q ?? 0) < -atRest ? "from" : null;
}

export const isOverPlan = (body: Body, [x]: Point): boolean =>
  x > body.x - 1e-6 && x < body.x + drawnWidth(body) + 1e-6;
