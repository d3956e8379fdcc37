/** Full lines whose flow died with no air let in: the waters that it joins stand level, or the water is down to its open
 * end. */
import { listed } from "../document/listed.ts";
import type { PartId } from "../document/section.ts";
import type { PipeModel } from "../network/network.ts";
import type { Link } from "../solver/links/link.ts";
import { firstBelow } from "./between.ts";
import type { CutRun } from "./cut.ts";
import { stopped } from "./pace.ts";
import type { CutEvent } from "./powerCut.ts";
import { levelWords } from "./words.ts";

/** What is read off the moments of a run. */
interface Reading {
  flowAt(link: Link, k: number): number;
  timeAt(k: number): number;
  levelAt(id: PartId, k: number): number;
  fadedBy(link: Link, k: number, bound: number): number;
  name(id: PartId): string;
}

export const linesAtRest = (cut: CutRun, reading: Reading): readonly CutEvent[] => [
  ...meetings(cut, reading),
  ...endsRunOut(cut, reading),
];

/** m³/s that a line must have passed at the start for its end to be told */
const ran = 1e-6;
/** m within which waters stand level */
const level = 1e-3;
/** s within which two things happen at once */
const atOnce = 1e-6;

/** A line with its branches is one: all bodies between which water ran in it have to stand level. */
function meetings({ network, run }: CutRun, { flowAt, levelAt, fadedBy, name }: Reading): readonly CutEvent[] {
  const uncovered = new Set<Link>(
    run.occurrences.flatMap(({ what, prime }) => (what === "uncovered" ? [prime.mouth] : [])),
  );
  const groups = new Map<number, Way[]>();
  for (const way of waysOf(network)) {
    if (uncovered.has(way.mouth) || Math.abs(flowAt(way.mouth, 0)) < ran) continue;
    groups.set(way.pipe.group, [...(groups.get(way.pipe.group) ?? []), way]);
  }
  return [...groups.values()].flatMap((ways): CutEvent[] => {
    const bodies = [...new Set(ways.map(({ body }) => body))];
    const [first] = ways.filter(({ mouth }) => flowAt(mouth, 0) > 0);
    if (!first || bodies.length < 2) return [];
    const stops = ways.map(({ mouth }) => firstBelow(run.moments.length, (k) => Math.abs(flowAt(mouth, k)), stopped));
    if (stops.includes(null)) return [];
    const end = Math.max(...stops.map(Number));
    const levels = bodies.map((body) => levelAt(body, end));
    if (Math.max(...levels) - Math.min(...levels) > level) return [];
    return [
      {
        time: fadedBy(first.mouth, stops[ways.indexOf(first)] as number, stopped),
        part: first.pipe.pipe.id,
        code: "levelsMeet",
        text: `${listed(bodies.map(name))} stand level at ${levelWords(levels[0] as number)}: the flow in ${name(first.pipe.pipe.id)} stops.`,
      },
    ];
  });
}

/** An opening by which a full line draws from a body or gives into it: at an end, or through a pump that stands in it. */
interface Way {
  readonly pipe: PipeModel;
  readonly body: PartId;
  readonly mouth: Link;
}

const waysOf = ({ pipes, pumps }: CutRun["network"]): readonly Way[] =>
  [...pipes.values()].flatMap((pipe) =>
    [
      { end: pipe.from, mouth: pipe.mouthFrom },
      { end: pipe.to, mouth: pipe.mouthTo },
    ].flatMap(({ end, mouth }): Way[] => {
      if (pipe.runs !== "full") return [];
      if (end.kind === "body" && mouth) return [{ pipe, body: end.opening.body, mouth }];
      const model = end.kind === "pump" ? pumps.get(end.pump) : undefined;
      return model?.intake && model.pump.in !== undefined ? [{ pipe, body: model.pump.in, mouth: model.intake }] : [];
    }),
  );

/** Ends of full lines out of which water ran in the open until it stood no higher there: no mouth was uncovered then, and
 * no vent let air in. */
function endsRunOut({ network, run }: CutRun, { flowAt, timeAt, levelAt, fadedBy, name }: Reading): CutEvent[] {
  const stopsAt = (link: Link): number | null =>
    firstBelow(run.moments.length, (k) => Math.abs(flowAt(link, k)), stopped);
  const isCutOff = ({ group }: PipeModel, k: number): boolean =>
    run.occurrences.some(
      ({ what, time, prime }) =>
        what === "uncovered" &&
        network.pipes.get(prime.part)?.group === group &&
        time >= timeAt(k - 1) - atOnce &&
        time <= timeAt(k) + atOnce,
    ) ||
    [...network.vents.values()].some(
      ({ airPoint, pipe }) => airPoint && network.pipes.get(pipe)?.group === group && stopsAt(airPoint) === k,
    );
  return [...network.pipes.values()].flatMap((pipe) => {
    if (pipe.runs !== "full") return [];
    const ends = [
      { mouth: pipe.mouthFrom, end: pipe.from },
      { mouth: pipe.mouthTo, end: pipe.to },
    ];
    return ends.flatMap(({ mouth, end }): CutEvent[] => {
      if (!mouth || -flowAt(mouth, 0) < ran) return [];
      const k = stopsAt(mouth);
      const { axis } = mouth.mouth;
      if (k === null || isCutOff(pipe, k) || (end.kind === "body" && levelAt(end.opening.body, k) > axis)) return [];
      return [
        {
          time: fadedBy(mouth, k, stopped),
          part: pipe.pipe.id,
          code: "lineStops",
          text: `The water behind the open end of ${name(pipe.pipe.id)} is down to it at ${levelWords(axis)}: nothing more runs out.`,
        },
      ];
    });
  });
}
