/** The running state in numbers that a person can use: solution → readings, a kind of part a file. */
import type { PartId } from "../document/section.ts";
import { waterVolume } from "../document/volumes.ts";
import { tiedGroups } from "../network/tied.ts";
import { fluidOf } from "./readings/fluid.ts";
import { airyNodes } from "./readings/gradeLine.ts";
import { bodyInflows, lostByPond, netInto } from "./readings/inflows.ts";
import { pipeReading } from "./readings/pipe.ts";
import { type Delivered, pumpReading } from "./readings/pump.ts";
import { ventReading } from "./readings/vent.ts";
import { vesselReading } from "./readings/vessel.ts";
import { settle } from "./rest.ts";
import type { PipeReading, PondReading, RunningState, SpillwayReading, VentReading } from "./running.ts";
import type { Steady } from "./steady.ts";

export function readings(state: Steady, delivered: Delivered): RunningState {
  const { network } = state;
  const fluid = fluidOf(network.section);
  const pipes = new Map<PartId, PipeReading>();
  const airy = airyNodes(state);
  const tied = tiedGroups(network);
  for (const [id, pipe] of network.pipes)
    pipes.set(id, pipeReading(state, pipe, fluid, { airy, hasPressure: tied.has(pipe.group) }));
  const inflows = bodyInflows(network);
  const net = netInto(inflows);
  const lost = lostByPond(network, net);
  const spills = new Map<PartId, VentReading>();
  for (const [id, vent] of network.vents) spills.set(id, ventReading(state, vent, fluid));
  return {
    converged: true,
    pumps: new Map(
      [...network.pumps].map(([id, pump]) => [id, pumpReading(state, pump, pipes, delivered, fluid.density)]),
    ),
    pipes,
    vessels: new Map(
      [...network.bodies.values()].flatMap((body) =>
        body.body.kind === "vessel" ? [[body.body.id, vesselReading(state, body, body.body, inflows, fluid)]] : [],
      ),
    ),
    vents: spills,
    ponds: new Map(
      [...network.bodies.values()].flatMap(({ body, surface }) => {
        if (body.kind !== "pond") return [];
        const reading: PondReading = {
          level: state.system.head[surface] as number,
          volume: waterVolume(body, state.system.head[surface] as number),
          netInflow: settle(net.get(body.id) ?? 0),
          lossToGround: settle(lost.get(body.id) ?? 0),
        };
        return [[body.id, reading] as const];
      }),
    ),
    spillways: new Map(
      [...network.spillways].map(([id, { spillway, link }]): [PartId, SpillwayReading] => {
        const head = Math.max(0, (state.system.head[link.i] as number) - spillway.crestZ);
        return [id, { flow: settle(link.Q), head, perWidth: Math.abs(settle(link.Q)) / spillway.width }];
      }),
    ),
    iterations: state.iterations,
    residual: { balance: state.solved.balance, loss: state.solved.loss },
  };
}
