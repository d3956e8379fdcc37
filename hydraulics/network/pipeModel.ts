/** One pipe laid out: its ends, what it bears and where, and which pipes run together as a group.
 *
 * Where losses lie: listed fittings and extra length at the `from` end; a bend at its vertex; the run loss of a
 * tee on the main pipe just past the tee on its `to` side; the branch loss on the branch's stretch at the tee; a
 * sudden change of bore, where two pipes meet end to end, on the narrower one, if water can go from the one into the
 * other: none where one of them is shut off by a valve, nor at a pump, which gives to each of its pipes by itself. A
 * vent's or a valve's tee bears none. A pump's outlet stub is not counted. */
import {
  countsBends,
  extraLengthOf,
  fittingsOf,
  isStuckOpen,
  mouthOf,
  valveOpen,
  valveType,
} from "../document/defaults.ts";
import { bottomOf, lineLength, pipeLine } from "../document/geometry.ts";
import { joinedTo } from "../document/joints.ts";
import type { CheckValve, PartId, Pipe, Point, Section, Valve } from "../document/section.ts";
import { valveK } from "../elements/valve.ts";
import { bendK, fittingK, suddenContractionK, suddenEnlargementK, swingCheckValveK } from "../formulas/fittingK.ts";
import { must } from "../must.ts";
import type { Bears, PipeEndModel, PipeModel } from "./network.ts";

/** m within which two places on a pipe are one */
export const samePlace = 1e-6;

/** m: the highest level that a pipe's axis comes to */
export const crestOf = ({ line }: Pick<PipeModel, "line">): number => Math.max(...line.map(([, z]) => z));

export type LaidPipe = Omit<PipeModel, "stretches" | "mouthFrom" | "mouthTo">;

export interface Layout {
  readonly pipes: ReadonlyMap<PartId, LaidPipe>;
  /** by pipe: places of tees of other pipes, rising */
  readonly tees: ReadonlyMap<PartId, readonly number[]>;
}

/** @param asFull gravity pipes to be followed as full lines (with the group they belong to)
 *  @param without pipes left out; what they bore on others stays */
export function layOut(section: Section, asFull: ReadonlySet<PartId>, without: ReadonlySet<PartId>): Layout {
  const pipes: Pipe[] = [];
  const onPipe = new Map<PartId, { valves: Valve[]; checks: CheckValve[] }>();
  for (const part of section.parts.values()) if (part.kind === "pipe") pipes.push(part);
  for (const pipe of pipes) onPipe.set(pipe.id, { valves: [], checks: [] });
  for (const part of section.parts.values()) {
    if (part.kind === "valve") onPipe.get(part.on.pipe)?.valves.push(part);
    if (part.kind === "checkValve") onPipe.get(part.on.pipe)?.checks.push(part);
  }
  const { groupOf, full } = groups(section, pipes, asFull);
  const tees = new Map<PartId, number[]>(pipes.map((pipe) => [pipe.id, []]));
  for (const pipe of pipes) {
    for (const end of [pipe.from, pipe.to]) {
      if ("pipe" in end) tees.get(end.pipe)?.push(end.at);
    }
  }
  for (const [id, places] of tees) tees.set(id, distinct(places));

  const laid = new Map<PartId, LaidPipe>();
  for (const pipe of pipes) {
    const line = pipeLine(section, pipe);
    const drawn = lineLength(line);
    const own = onPipe.get(pipe.id) as { valves: Valve[]; checks: CheckValve[] };
    const from = endModel(section, pipe, "from", line[0] as Point, line[1] as Point);
    const to = endModel(section, pipe, "to", line.at(-1) as Point, line.at(-2) as Point);
    const valves = own.valves.map((valve) => ({ valve, at: Math.min(valve.on.at, drawn) })).sort((a, b) => a.at - b.at);
    const checks = own.checks.map((valve) => ({ valve, at: Math.min(valve.on.at, drawn) })).sort((a, b) => a.at - b.at);
    const bears: Bears[] = [];
    const bear = (at: number, k: number, of: Pick<Bears, "what"> & Partial<Bears>) => {
      if (k !== 0) bears.push({ at, kForward: k, kBackward: k, count: 1, ...of });
    };
    for (const { type, count, k } of fittingsOf(pipe))
      bear(0, count * (type === "other" ? (k ?? 0) : fittingK[type]), { what: "fitting", count, fitting: type });
    if (countsBends(pipe)) for (const { at, turn } of bendsOf(line)) bear(at, bendK(turn), { what: "bend", turn });
    for (const { valve, at } of valves)
      if (valveOpen(valve) > 0) bear(at, valveK(valveType(valve), valveOpen(valve)), { what: "valve", valve });
    // A flap held open is still in the way.
    for (const { valve, at } of checks) bear(at, swingCheckValveK, { what: "checkValve", valve });
    for (const at of tees.get(pipe.id) as number[]) {
      if (at > samePlace && at < drawn - samePlace) bear(at, fittingK.teeRun, { what: "teeRun" });
    }
    if (from.kind === "tee" && !from.joint) bear(0, fittingK.teeBranch, { what: "teeBranch" });
    if (to.kind === "tee" && !to.joint) bear(drawn, fittingK.teeBranch, { what: "teeBranch" });
    laid.set(pipe.id, {
      pipe,
      line,
      drawn,
      extra: extraLengthOf(pipe),
      from,
      to,
      runs: full.has(groupOf.get(pipe.id) as number) ? "full" : "gravity",
      group: groupOf.get(pipe.id) as number,
      bears,
      shutAt: valves.filter(({ valve }) => valveOpen(valve) <= 0).map(({ at }) => at),
      checks: checks.filter(({ valve }) => !isStuckOpen(valve)),
      valves,
    });
  }
  bearChangesOfBore(laid);
  for (const pipe of laid.values()) (pipe.bears as Bears[]).sort((a, b) => a.at - b.at);
  for (const id of without) laid.delete(id);
  return { pipes: laid, tees };
}

/** Rising, each place once. */
export function distinct(places: readonly number[]): number[] {
  const sorted = [...places].sort((a, b) => a - b);
  return sorted.filter((at, k) => k === 0 || at - (sorted[k - 1] as number) > samePlace);
}

function endModel(section: Section, pipe: Pipe, side: "from" | "to", place: Point, next: Point): PipeEndModel {
  const { bore, [side]: end } = pipe;
  if ("open" in end) {
    const joins = joinedTo(section, { pipe: pipe.id, side });
    if (joins.length > 0) return { kind: "joint", place, joins };
    return { kind: "air", place, facing: isUpright(place, next) ? "upright" : "level" };
  }
  if ("pipe" in end) {
    const main = section.parts.get(end.pipe);
    must(main?.kind === "pipe", `a tee into ${end.pipe}, which is no pipe`);
    const length = lineLength(pipeLine(section, main));
    return { kind: "tee", pipe: end.pipe, at: end.at, place, joint: end.at < samePlace || end.at > length - samePlace };
  }
  const part = section.parts.get(end.part);
  must(part, `an end at ${end.part}, which does not exist`);
  if (part.kind === "pump") return { kind: "pump", pump: part.id, place };
  must(part.kind === "pond" || part.kind === "vessel", `an end at ${end.part}, which holds no water`);
  const mouth = mouthOf(end);
  const level = end.z ?? bottomOf(part);
  return {
    kind: "body",
    place,
    opening: { body: part.id, mouth, level, edge: mouth === "side" ? level - bore / 2 : level },
  };
}

/** Steeper than 45°: an open end there faces up or down rather than sideways. */
const isUpright = (a: Point, b: Point): boolean => Math.abs(b[1] - a[1]) > Math.abs(b[0] - a[0]);

/** The turns of a line at its vertices, in degrees. */
export function bendsOf(line: readonly Point[]): { at: number; turn: number }[] {
  const bends: { at: number; turn: number }[] = [];
  let before: Point | null = null;
  let at = 0;
  for (let k = 1; k < line.length; k++) {
    const a = line[k - 1] as Point;
    const b = line[k] as Point;
    const leg: Point = [b[0] - a[0], b[1] - a[1]];
    const length = Math.hypot(leg[0], leg[1]);
    if (length < 1e-9) continue;
    if (before) {
      const turn = Math.abs(
        Math.atan2(before[0] * leg[1] - before[1] * leg[0], before[0] * leg[0] + before[1] * leg[1]),
      );
      if (turn > 1e-6) bends.push({ at, turn: (turn * 180) / Math.PI });
    }
    before = leg;
    at += length;
  }
  return bends;
}

/** Pipes joined by tees or by a pump are one group; a group with a pump runs full. */
function groups(section: Section, pipes: readonly Pipe[], asFull: ReadonlySet<PartId>) {
  const parent = new Map<PartId, PartId>();
  const find = (id: PartId): PartId => {
    let root = id;
    for (let up = parent.get(root); up !== undefined && up !== root; up = parent.get(root)) root = up;
    // Shorten the way for the next one that asks.
    for (let at = id; at !== root; ) {
      const up = parent.get(at) as PartId;
      parent.set(at, root);
      at = up;
    }
    return root;
  };
  const pumps = new Set<PartId>();
  for (const pipe of pipes) parent.set(pipe.id, parent.get(pipe.id) ?? pipe.id);
  for (const pipe of pipes) {
    for (const end of [pipe.from, pipe.to]) {
      const partner = "pipe" in end ? end.pipe : "part" in end ? end.part : null;
      if (partner === null) continue;
      if ("part" in end) {
        if (section.parts.get(partner)?.kind !== "pump") continue;
        pumps.add(partner);
      }
      if (!parent.has(partner)) parent.set(partner, partner);
      parent.set(find(pipe.id), find(partner));
    }
  }
  const number = new Map<PartId, number>();
  const groupOf = new Map<PartId, number>();
  for (const pipe of pipes) {
    const root = find(pipe.id);
    if (!number.has(root)) number.set(root, number.size);
    groupOf.set(pipe.id, number.get(root) as number);
  }
  const full = new Set<number>();
  for (const pump of pumps) full.add(number.get(find(pump)) as number);
  for (const id of asFull) if (groupOf.has(id)) full.add(groupOf.get(id) as number);
  return { groupOf, full };
}

/** Where pipes meet end to end and water goes from one into the other:
 * the narrower one bears the change, by direction. */
function bearChangesOfBore(laid: ReadonlyMap<PartId, LaidPipe>): void {
  for (const pipe of laid.values()) {
    for (const side of ["from", "to"] as const) {
      const end = pipe[side];
      if (end.kind !== "tee" || !end.joint) continue;
      const main = laid.get(end.pipe) as LaidPipe;
      const own = pipe.pipe.bore;
      const other = main.pipe.bore;
      if (own === other || pipe.shutAt.length > 0 || main.shutAt.length > 0) continue;
      const atMainsTo = end.at > samePlace;
      // The change from a pump's outlet, or to its inlet, is not counted, however many pipes it has there.
      if ((atMainsTo ? main.to : main.from).kind === "pump") continue;
      const narrow = own < other ? pipe : main;
      const wide = own < other ? main : pipe;
      const widening = suddenEnlargementK(narrow.pipe.bore, wide.pipe.bore);
      const narrowing = suddenContractionK(wide.pipe.bore, narrow.pipe.bore);
      const atTo = narrow === pipe ? side === "to" : atMainsTo;
      // Leaving the narrow pipe at its `to` end is flowing forward in it, and widens.
      (narrow.bears as Bears[]).push({
        at: atTo ? narrow.drawn : 0,
        kForward: atTo ? widening : narrowing,
        kBackward: atTo ? narrowing : widening,
        what: "bore",
        count: 1,
      });
    }
  }
}
