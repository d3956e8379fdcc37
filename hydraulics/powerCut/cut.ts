/** One power cut run through: pumps stopped, vents as rated, from given levels to rest. */
import type { PartId, Section } from "../document/section.ts";
import { levelOfVolume, waterVolume } from "../document/volumes.ts";
import { buildNetwork } from "../network/build.ts";
import type { Network } from "../network/network.ts";
import { keepVelocityHeads } from "../solver/steady.ts";
import { System } from "../solver/system.ts";
import { spillOverRims } from "./brim.ts";
import { fallingColumns } from "./columns.ts";
import { type DryLeg, stillDry } from "./dryLegs.ts";
import { type Prime, type Run, runInTime } from "./engine.ts";
import { primesOf } from "./primes.ts";

export interface CutOptions {
  readonly checkValves: "sound" | "open";
  readonly asFull: ReadonlySet<PartId>;
  readonly airPoints: ReadonlySet<PartId>;
  readonly until: number;
  /** in which air stood before */
  readonly dry?: readonly DryLeg[];
  readonly refine?: number;
}

export interface CutRun {
  readonly network: Network;
  readonly run: Run;
  readonly primes: readonly Prime[];
  readonly finalLevels: ReadonlyMap<PartId, number>;
  /** m³ that fell out of emptied legs, by body; null the ground */
  readonly columns: ReadonlyMap<PartId | null, number>;
  readonly columnsAt: number;
  readonly balanceError: number;
  readonly lost: number;
}

export const longestCut = 48 * 3600;

export function runCut(section: Section, startLevels: ReadonlyMap<PartId, number>, options: CutOptions): CutRun {
  const { checkValves, asFull, airPoints, until, refine } = options;
  const network = buildNetwork(section, { pumps: "stopped", checkValves, asFull, airPoints });
  const system = new System(network.nodes, network.links);
  keepVelocityHeads(network, system);
  setLevels(network, system, startLevels);
  const primes = primesOf(network, "stopped");
  const settings = { until, ...(refine === undefined ? {} : { refine }) };
  const first = runInTime(network, system, primes, settings);

  // Columns fall when all else has come to rest; what they raise runs out as usual.
  const levelsThen = new Map([...network.bodies].map(([id, { surface }]) => [id, system.head[surface] as number]));
  const columns = fallingColumns(
    network,
    groupsWithAir(network, primes),
    (id) => levelsThen.get(id) as number,
    checkValves === "sound",
    stillDry(options.dry ?? [], network, first.through),
  );
  let run = first;
  let fallen = 0;
  for (const volume of columns.values()) fallen += volume;
  const columnsAt = first.moments.at(-1)?.time ?? 0;
  if (fallen > 0 && first.failedAt === null) {
    for (const [id, volume] of columns) {
      const model = id === null ? undefined : network.bodies.get(id);
      if (!model) continue;
      system.head[model.surface] = levelOfVolume(
        model.body,
        waterVolume(model.body, system.head[model.surface] as number) + volume,
      );
    }
    const spilt = spillOverRims(network, system);
    const left = until - columnsAt;
    // Where the time is up, what has fallen stays where it fell.
    const after =
      left >= 1
        ? runInTime(network, system, primes, { ...settings, keepPrimes: true, until: left, after: columnsAt })
        : { ...first, moments: [], occurrences: [], lost: 0, through: first.through.map(() => 0), steps: 0 };
    run = {
      ...after,
      moments: [...first.moments, ...after.moments.map((moment) => ({ ...moment, time: moment.time + columnsAt }))],
      occurrences: [...first.occurrences, ...after.occurrences.map((one) => ({ ...one, time: one.time + columnsAt }))],
      lost: first.lost + after.lost + spilt.toGround + (columns.get(null) ?? 0),
      through: after.through.map((volume, e) => volume + (first.through[e] as number) + (spilt.over.get(e) ?? 0)),
      steps: first.steps + after.steps,
      balanceError: Math.max(first.balanceError, after.balanceError),
    };
  }
  return {
    network,
    run,
    primes,
    columns,
    columnsAt,
    lost: run.lost,
    balanceError: run.balanceError,
    finalLevels: new Map([...network.bodies].map(([id, { surface }]) => [id, system.head[surface] as number])),
  };
}

/** Body levels set, and every other head near them, so that the first solve starts at rest. */
export function setLevels(network: Network, system: System, levels: ReadonlyMap<PartId, number>): void {
  let mean = 0;
  for (const [id, { surface, column }] of network.bodies) {
    const level = levels.get(id) as number;
    system.head[surface] = level;
    for (const { node } of column) system.head[node] = level;
    mean += level / network.bodies.size;
  }
  for (const { inlet, outlet } of network.pumps.values()) {
    system.head[inlet] = mean;
    system.head[outlet] = mean;
  }
}

/** Groups of full lines with air in them: an open end, an uncovered mouth, an air point at work. */
function groupsWithAir(network: Network, primes: readonly Prime[]): Set<number> {
  const found = new Set<number>();
  for (const pipe of network.pipes.values()) {
    if (pipe.runs !== "full") continue;
    if (pipe.from.kind === "air" || pipe.to.kind === "air") found.add(pipe.group);
  }
  for (const { mouth, part } of primes) {
    const pipe = network.pipes.get(part);
    if (pipe && mouth.broken) found.add(pipe.group);
  }
  for (const vent of network.vents.values()) {
    const pipe = network.pipes.get(vent.pipe);
    if (pipe && vent.airPoint && vent.airPoint.state !== "whole") found.add(pipe.group);
  }
  return found;
}
