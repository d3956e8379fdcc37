/** What enters bodies and leaves them, and what of it is lost. */
import type { PartId } from "../../document/section.ts";
import type { Network } from "../../network/network.ts";
import { outside } from "../links/link.ts";
import { atRest, settle } from "../rest.ts";

export interface OpeningFlow {
  readonly body: PartId;
  readonly level: number;
  /** m³/s into the body */
  readonly into: number;
}

/** What enters (or leaves) bodies, opening by opening; rims and sills at the surface. */
export function bodyInflows(network: Network): readonly OpeningFlow[] {
  const flows: OpeningFlow[] = [];
  for (const pipe of network.pipes.values()) {
    const first = pipe.stretches[0];
    const last = pipe.stretches.at(-1);
    if (pipe.from.kind === "body") {
      flows.push({
        body: pipe.from.opening.body,
        level: pipe.from.opening.level,
        into: settle(-(pipe.mouthFrom?.Q ?? first?.link.Q ?? 0)),
      });
    }
    if (pipe.to.kind === "body") {
      flows.push({
        body: pipe.to.opening.body,
        level: pipe.to.opening.level,
        into: settle(pipe.mouthTo ? -pipe.mouthTo.Q : (last?.link.Q ?? 0)),
      });
    }
  }
  for (const { pump, intake } of network.pumps.values()) {
    if (intake && pump.in !== undefined) flows.push({ body: pump.in, level: pump.z, into: settle(-intake.Q) });
  }
  for (const { spillway, link } of network.spillways.values()) {
    flows.push({ body: spillway.from, level: spillway.crestZ, into: settle(-link.Q) });
    if (spillway.to !== "ground")
      flows.push({ body: spillway.to, level: Number.POSITIVE_INFINITY, into: settle(link.Q) });
  }
  for (const { spill, spillsTo } of network.vents.values()) {
    if (spill && spillsTo !== "ground")
      flows.push({ body: spillsTo, level: Number.POSITIVE_INFINITY, into: settle(spill.Q) });
  }
  for (const [id, { rim, body }] of network.bodies) {
    if (rim.Q <= atRest) continue;
    flows.push({ body: id, level: body.rimLevel, into: -rim.Q });
    for (const [other, model] of network.bodies)
      if (rim.j === model.surface && other !== id)
        flows.push({ body: other, level: Number.POSITIVE_INFINITY, into: rim.Q });
  }
  return flows;
}

/** m³/s into each body, of those that any opening speaks of. */
export function netInto(inflows: readonly OpeningFlow[]): ReadonlyMap<PartId, number> {
  const net = new Map<PartId, number>();
  for (const { body, into } of inflows) net.set(body, (net.get(body) ?? 0) + into);
  return net;
}

/** Water that leaves for the ground for good, out of what the pond's pumps and pipes take: spills, rims, open ends.
 * With several ponds each answers for the losses of the lines and vessels that it feeds, in equal shares where
 * more than one does. */
export function lostByPond(network: Network, net: ReadonlyMap<PartId, number>): ReadonlyMap<PartId, number> {
  const ponds = [...network.bodies.values()].filter(({ body }) => body.kind === "pond").map(({ body }) => body.id);
  let total = 0;
  for (const link of network.links) if (link.j === outside && link.Q > atRest) total += link.Q;
  for (const pipe of network.pipes.values()) {
    for (const mouth of [pipe.mouthFrom, pipe.mouthTo])
      if (mouth && mouth.i === outside) total += Math.max(0, -mouth.Q);
    const first = pipe.stretches[0]?.link;
    if (first && first.i === outside && first.Q < -atRest) total -= first.Q;
  }
  if (ponds.length <= 1) return new Map(ponds.map((id) => [id, total]));
  // Each pond's share by what it puts in, net.
  const gives = ponds.map((id): [PartId, number] => [id, Math.max(0, -(net.get(id) ?? 0))]);
  const sum = gives.reduce((all, [, give]) => all + give, 0);
  return new Map(gives.map(([id, give]) => [id, sum > 0 ? (total * give) / sum : total / ponds.length]));
}
