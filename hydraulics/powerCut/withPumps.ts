/** Water in time with the pumps on: start-up, restart, and faults that do not stop the pump.
 *
 * The engine of the power cut, with the pumps' curves in place. Ponds and vessels are all free to move. A pump
 * that lifts more than comes to it sits at the edge of its intake (`limited`). Vents are credited as they are in
 * the drawn running state: rated once, as in the cut. The water that fills or leaves the pipes is not counted. */
import type { PartId, Section } from "../document/section.ts";
import { buildNetwork } from "../network/build.ts";
import { type Joins, teeKey } from "../network/draft.ts";
import type { Network } from "../network/network.ts";
import { type Steady, systemOf } from "../solver/steady.ts";
import type { System } from "../solver/system.ts";
import { type CutRun, setLevels } from "./cut.ts";
import { runInTime } from "./engine.ts";
import { primesOf } from "./primes.ts";

export interface PumpedOptions {
  /** the drawn running state: its credited vents, and heads to start from */
  readonly state: Steady;
  /** s */
  readonly until: number;
  /** pipes without a pump that run full all the same */
  readonly asFull?: ReadonlySet<PartId>;
  /** m */
  readonly tolerance?: number;
}

/** A run from given levels of every body. */
export function runWithPumps(
  section: Section,
  startLevels: ReadonlyMap<PartId, number>,
  { state, until, asFull, tolerance }: PumpedOptions,
): CutRun {
  const network = buildNetwork(section, {
    pumps: "running",
    checkValves: "sound",
    airPoints: creditedVents(state),
    branchAir: branchAirOf(state),
    ...(asFull ? { asFull } : {}),
  });
  const system = systemOf(network);
  system.given.fill(0);
  setLevels(network, system, startLevels);
  startNear(network, system, state);
  for (const [id, { surface }] of network.bodies) system.head[surface] = startLevels.get(id) as number;
  const primes = primesOf(network, "running");
  const run = runInTime(network, system, primes, { until, ...(tolerance === undefined ? {} : { tolerance }) });
  return {
    network,
    run,
    primes,
    columns: new Map(),
    columnsAt: 0,
    lost: run.lost,
    balanceError: run.balanceError,
    finalLevels: new Map([...network.bodies].map(([id, { surface }]) => [id, system.head[surface] as number])),
  };
}

const creditedVents = ({ network }: Steady): ReadonlySet<PartId> =>
  new Set([...network.vents].filter(([, { airPoint }]) => airPoint !== null).map(([id]) => id));

const branchAirOf = ({ network }: Steady): ReadonlyMap<string, Joins> =>
  new Map(network.branchAir.map(({ pipe, at, joins }) => [teeKey(pipe, at), joins]));

/** Heads and flows of the drawn state where the network has the same build; else it starts from rest. */
function startNear(network: Network, system: System, near: Steady): void {
  const same =
    network.nodes.length === near.network.nodes.length &&
    network.links.length === near.network.links.length &&
    network.links.every((link, e) => {
      const other = near.network.links[e];
      return other !== undefined && other.part === link.part && other.i === link.i && other.j === link.j;
    });
  if (!same) return;
  system.head.set(near.system.head);
  network.links.forEach((link, e) => {
    link.Q = near.network.links[e]?.Q ?? link.Q;
  });
}
