/** The water that stands in the legs of a line that took air, and where it falls.
 *
 * From its crest each leg runs down to the body at its end; what stands over that body's water falls into it.
 * Water in a sag stays, and so does what stands behind a sound check valve. */
import { placeAt } from "../document/geometry.ts";
import type { PartId } from "../document/section.ts";
import type { Network, PipeEndModel, PipeModel } from "../network/network.ts";

/** m³ by body; null: onto the ground.
 * @param tookAir groups of pipes in which air stands
 * @param soundChecks whether check valves hold */
export function fallingColumns(
  network: Network,
  tookAir: ReadonlySet<number>,
  levelOf: (body: PartId) => number,
  soundChecks: boolean,
): Map<PartId | null, number> {
  const falls = new Map<PartId | null, number>();
  for (const pipe of network.pipes.values()) {
    if (pipe.runs !== "full" || !tookAir.has(pipe.group) || pipe.drawn === 0) continue;
    const area = (Math.PI * pipe.pipe.bore ** 2) / 4;
    const pieces = Math.min(400, Math.max(20, Math.ceil(pipe.drawn / 0.02)));
    const length = pipe.drawn / pieces;
    const levels = Array.from({ length: pieces }, (_, k) => placeAt(pipe.line, (k + 0.5) * length)[1]);
    const crest = levels.indexOf(Math.max(...levels));
    const blockers = [...pipe.shutAt];
    for (const [side, end] of [
      ["from", pipe.from],
      ["to", pipe.to],
    ] as const) {
      const body = endsIn(network, end, new Set([pipe.pipe.id]));
      if (body === undefined) continue;
      const stands = body === null ? Number.NEGATIVE_INFINITY : levelOf(body);
      // Outwards from the end: what lies there falls, as long as nothing on the way rises over it or shuts.
      const order = side === "from" ? range(0, crest) : range(pieces - 1, crest);
      const stops = side === "from" && soundChecks ? [...blockers, ...pipe.checks.map(({ at }) => at)] : blockers;
      let highest = Number.NEGATIVE_INFINITY;
      let volume = 0;
      for (const k of order) {
        const at = (k + 0.5) * length;
        if (stops.some((stop) => (side === "from" ? stop < at : stop > at))) break;
        const z = levels[k] as number;
        highest = Math.max(highest, z);
        if (z >= highest - 1e-6 && z > stands) volume += area * length;
      }
      if (volume > 0) falls.set(body, (falls.get(body) ?? 0) + volume);
    }
  }
  return falls;
}

function range(from: number, to: number): number[] {
  const step = from <= to ? 1 : -1;
  return Array.from({ length: Math.abs(to - from) + (step === 1 ? 1 : 0) }, (_, k) => from + step * k);
}

/** The body that an end leads to by its own weight: through a stopped pump, along a tee's pipe to its lower end.
 * null: the air over the ground; undefined: nowhere. */
function endsIn(network: Network, end: PipeEndModel, seen: ReadonlySet<PartId>): PartId | null | undefined {
  if (end.kind === "body") return end.opening.body;
  if (end.kind === "air") return null;
  if (end.kind === "pump") {
    const pump = network.pumps.get(end.pump);
    if (!pump) return undefined;
    if (pump.pump.in !== undefined) return pump.pump.in;
    for (const pipe of network.pipes.values()) {
      if (seen.has(pipe.pipe.id)) continue;
      if (pipe.to.kind === "pump" && pipe.to.pump === end.pump)
        return endsIn(network, pipe.from, new Set([...seen, pipe.pipe.id]));
    }
    return undefined;
  }
  const main: PipeModel | undefined = network.pipes.get(end.pipe);
  if (!main || seen.has(end.pipe)) return undefined;
  const lower = (main.line[0]?.[1] ?? 0) <= (main.line.at(-1)?.[1] ?? 0) ? main.from : main.to;
  return endsIn(network, lower, new Set([...seen, end.pipe]));
}
