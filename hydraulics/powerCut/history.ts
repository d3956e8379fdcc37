/** Levels and flows against time, read off a run's moments. */
import type { PartId } from "../document/section.ts";
import type { Network } from "../network/network.ts";
import type { Run } from "./engine.ts";
import type { CutHistory } from "./powerCut.ts";

export function historyOf({ network, run }: { readonly network: Network; readonly run: Run }): CutHistory {
  const indexOf = new Map(network.links.map((link, e) => [link, e]));
  const flows = new Map<PartId, readonly number[]>();
  const series = (e: number): number[] => run.moments.map((moment) => moment.flows[e] as number);
  for (const [id, pipe] of network.pipes) {
    const link = pipe.stretches[0]?.link;
    if (link) flows.set(id, series(indexOf.get(link) as number));
  }
  for (const [id, { link }] of network.spillways) flows.set(id, series(indexOf.get(link) as number));
  return {
    times: run.moments.map(({ time }) => time),
    levels: new Map(
      [...network.bodies.keys()].map((id, index) => [id, run.moments.map((moment) => moment.levels[index] as number)]),
    ),
    flows,
  };
}
