/** What a pipe loses beside its friction, item by item, as the network counts it (`network/pipeModel.ts`): each K bears
 * V²/2g of this pipe. For the slip that shows where a figure comes from; the solver does not ask here. */
import { countsBends, fittingsOf, isStuckOpen, mouthOf, valveOpen, valveType } from "../document/defaults.ts";
import { lineLength, pipeLine } from "../document/geometry.ts";
import type { FittingType, Part, PartId, Pipe, PipeEnd, Section } from "../document/section.ts";
import { valveK } from "../elements/valve.ts";
import {
  bendK,
  entranceFlushK,
  entranceProjectingK,
  exitK,
  fittingK,
  suddenContractionK,
  suddenEnlargementK,
  swingCheckValveK,
} from "../formulas/fittingK.ts";
import { bendsOf, samePlace } from "../network/pipeModel.ts";

export interface LossItem {
  readonly what: string;
  readonly count: number;
  /** of one of them */
  readonly k: number;
}

export const fittingNames: Readonly<Record<FittingType, string>> = {
  elbow90: "elbow 90°",
  elbow45: "elbow 45°",
  swept90: "swept bend 90°",
  teeRun: "tee, straight through",
  teeBranch: "tee, by the branch",
  strainer: "strainer",
  other: "other fitting",
};

/** In the order that the water meets kinds of them: its entrance, what is listed, bends, valves, tees, its exit.
 * @param forward whether it runs as drawn */
export function lossesOf(section: Section, pipe: Pipe, forward: boolean): readonly LossItem[] {
  const line = pipeLine(section, pipe);
  const length = lineLength(line);
  const others = [...section.parts.values()];
  const on = <K extends Part["kind"]>(kind: K) =>
    others.filter(
      (part): part is Extract<Part, { kind: K }> =>
        part.kind === kind && "on" in part && (part.on as { pipe: PartId }).pipe === pipe.id,
    );
  const [first, last] = forward ? [pipe.from, pipe.to] : [pipe.to, pipe.from];
  return joined([
    ...entrance(section, first),
    ...fittingsOf(pipe).map(({ type, k, count }) => ({
      what: fittingNames[type],
      count,
      k: type === "other" ? (k ?? 0) : fittingK[type],
    })),
    ...(countsBends(pipe)
      ? bendsOf(line).map(({ turn }) => ({ what: `bend ${Math.round(turn)}°`, count: 1, k: bendK(turn) }))
      : []),
    ...on("valve").flatMap((valve) =>
      valveOpen(valve) > 0
        ? [{ what: `${valveType(valve)} valve`, count: 1, k: valveK(valveType(valve), valveOpen(valve)) }]
        : [],
    ),
    // A flap held open is still in the way.
    ...on("checkValve").map((valve) => ({
      what: isStuckOpen(valve) ? "check valve, stuck open" : "check valve",
      count: 1,
      k: swingCheckValveK,
    })),
    ...teesOn(others, pipe, length).map(() => ({ what: "tee, straight through", count: 1, k: fittingK.teeRun })),
    ...[pipe.from, pipe.to].flatMap((end) => branch(section, end)),
    ...changesOfBore(section, pipe, length, forward),
    ...exit(section, last),
  ]);
}

function joined(items: readonly LossItem[]): readonly LossItem[] {
  const all = new Map<string, LossItem>();
  for (const item of items) {
    if (item.k === 0 || item.count === 0) continue;
    const key = `${item.what} ${item.k.toPrecision(9)}`;
    all.set(key, { ...item, count: item.count + (all.get(key)?.count ?? 0) });
  }
  return [...all.values()];
}

const isBody = (section: Section, end: PipeEnd): end is Extract<PipeEnd, { part: PartId }> => {
  const kind = "part" in end ? section.parts.get(end.part)?.kind : undefined;
  return kind === "pond" || kind === "vessel";
};

function entrance(section: Section, end: PipeEnd): readonly LossItem[] {
  if (!isBody(section, end)) return [];
  return mouthOf(end) === "side"
    ? [{ what: "entrance, flush", count: 1, k: entranceFlushK }]
    : [{ what: "entrance, projecting", count: 1, k: entranceProjectingK }];
}

const exit = (section: Section, end: PipeEnd): readonly LossItem[] =>
  isBody(section, end) || "open" in end ? [{ what: "exit", count: 1, k: exitK }] : [];

/** Places of other pipes' tees along it, each once, its two ends apart. */
function teesOn(parts: readonly Part[], pipe: Pipe, length: number): readonly number[] {
  const places: number[] = [];
  for (const part of parts) {
    if (part.kind !== "pipe") continue;
    for (const end of [part.from, part.to])
      if (
        "pipe" in end &&
        end.pipe === pipe.id &&
        end.at > samePlace &&
        end.at < length - samePlace &&
        !places.some((at) => Math.abs(at - end.at) < samePlace)
      )
        places.push(end.at);
  }
  return places;
}

const lengthOf = (section: Section, id: PartId): number => {
  const part = section.parts.get(id);
  return part?.kind === "pipe" ? lineLength(pipeLine(section, part)) : 0;
};

const isJoint = (section: Section, end: Extract<PipeEnd, { pipe: PartId }>): boolean =>
  end.at < samePlace || end.at > lengthOf(section, end.pipe) - samePlace;

const branch = (section: Section, end: PipeEnd): readonly LossItem[] =>
  "pipe" in end && !isJoint(section, end) ? [{ what: "tee, by the branch", count: 1, k: fittingK.teeBranch }] : [];

/** Where two pipes meet end to end the narrower one bears the change. */
function changesOfBore(section: Section, pipe: Pipe, length: number, forward: boolean): readonly LossItem[] {
  const items: LossItem[] = [];
  const meet = (other: Pipe, atTo: boolean): void => {
    if (!(pipe.bore < other.bore)) return;
    const widens = atTo === forward;
    const k = widens ? suddenEnlargementK(pipe.bore, other.bore) : suddenContractionK(other.bore, pipe.bore);
    items.push({ what: widens ? "sudden widening" : "sudden narrowing", count: 1, k });
  };
  for (const part of section.parts.values()) {
    if (part.kind !== "pipe" || part.id === pipe.id) continue;
    for (const side of ["from", "to"] as const) {
      const mine = pipe[side];
      if ("pipe" in mine && mine.pipe === part.id && isJoint(section, mine)) meet(part, side === "to");
      const its = part[side];
      if ("pipe" in its && its.pipe === pipe.id && (its.at < samePlace || its.at > length - samePlace))
        meet(part, its.at > samePlace);
    }
  }
  return items;
}
