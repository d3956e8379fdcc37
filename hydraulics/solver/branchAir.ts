/** Tees of full lines at which a dry leg lets air in (design notes, section 8: "a branch that ends in air and passes no
 * water admits air at its tee like an ample vent"): the leg may be a branch, or what is left of the main past the tee,
 * and goes on over joints.
 *
 *          arrives                    The tee stands at atmospheric pressure: the water that arrives is lifted to it.
 *     ────────────●───── dry leg      The cut lies where the water leaves, so that the dry leg meets the water that
 *                 │                   arrives: where it ends lower than that, some of it falls out there, and the rest
 *                 │ other leg         goes on by the other leg. But where the dry leg could so carry all that arrives,
 *                                     it would have to pull to stay full.
 *
 * Then the cut lies before both legs, and these share what comes as their heads say: with the other leg at work the dry
 * one gets nothing, as before air came in. */
import type { PartId } from "../document/section.ts";
import { boreArea } from "../formulas/circle.ts";
import { velocityHead } from "../formulas/totalHead.ts";
import { type Joins, type Side, teeKey } from "../network/draft.ts";
import type { BranchAir, Network, PipeModel, StretchModel } from "../network/network.ts";
import { carriedOnAlone, type Entered, stretchAt, turned } from "../network/onward.ts";
import { samePlace } from "../network/pipeModel.ts";
import type { AirPointLink } from "./links/airPointLink.ts";
import { type Link, outside } from "./links/link.ts";
import { atRest } from "./rest.ts";
import type { Steady } from "./steady.ts";

/** m: a body that an end drains by a trickle stands at that end's edge, a hair over or under it as the digits fall.
 * Water then lies at the end, not air. */
const atItsEdge = 1e-6;

/** The main's stretches on either side of a tee. */
interface Beside {
  readonly before: StretchModel;
  readonly after: StretchModel;
}

/** A tee at which a dry leg admits air, with the pipes that meet on either side of its cut. */
interface AiringTee extends Beside {
  readonly link: AirPointLink;
  readonly cut: BranchAir;
  readonly area: number;
  readonly atI: readonly Leg[];
  readonly atJ: readonly Leg[];
}

interface Leg {
  readonly link: Link;
  /** 1 where its flow comes to the tee, −1 where it leaves */
  readonly way: 1 | -1;
  readonly area: number;
}

export function airingTees({ branchAir, pipes }: Network): readonly AiringTee[] {
  const legs = new Map<number, Leg[]>(branchAir.flatMap(({ link: { i, j } }) => [[i, []] as const, [j, []] as const]));
  if (legs.size === 0) return [];
  const areaIn = (id: PartId): number => boreArea(pipes.get(id)?.pipe.bore ?? 0);
  for (const { stretches, pipe } of pipes.values()) {
    for (const { i, j, link } of stretches) {
      legs.get(i)?.push({ link, way: -1, area: areaIn(pipe.id) });
      legs.get(j)?.push({ link, way: 1, area: areaIn(pipe.id) });
    }
  }
  return branchAir.flatMap((cut): AiringTee[] => {
    const { link, pipe, at } = cut;
    const beside = besideTee(pipes.get(pipe), at);
    if (!beside) return [];
    const [atI, atJ] = [legs.get(link.i) ?? [], legs.get(link.j) ?? []];
    return [{ ...beside, link, cut, area: areaIn(pipe), atI, atJ }];
  });
}

function besideTee(main: PipeModel | undefined, at: number): Beside | null {
  const before = main?.stretches.find(({ end }) => Math.abs(end - at) < 2 * samePlace);
  const after = main?.stretches.find(({ start }) => Math.abs(start - at) < 2 * samePlace);
  return before && after ? { before, after } : null;
}

/** The side by which water comes to a tee in the main; null where it comes by neither. */
const comesBy = ({ before, after }: Beside): Side | null =>
  before.link.Q > atRest ? "from" : after.link.Q < -atRest ? "to" : null;

/** m/s, of the flows that come to a tee */
function fastestOf(legs: readonly Leg[]): number {
  let fastest = 0;
  for (const { link, way, area } of legs) fastest = Math.max(fastest, (way * link.Q) / area);
  return fastest;
}

/** By the fastest of the flows that come to it the water stands at a tee. */
export function setArriving({ link, area, atI, atJ }: AiringTee): void {
  const passing = Math.abs(link.Q) / area;
  const speedAt = (legs: readonly Leg[]): number | null => {
    const fastest = fastestOf(legs);
    return Math.abs(fastest - passing) > 1e-9 * fastest ? fastest : null;
  };
  link.arrivingAtI = speedAt(atI);
  link.arrivingAtJ = speedAt(atJ);
}

/** Whether the stretch at an end of a full line passes nothing and is open to the air from there. */
function isDryFrom(state: Pick<Steady, "system">, pipe: PipeModel, side: Side): boolean {
  const stretch = stretchAt({ pipe, side });
  if (!stretch || Math.abs(stretch.link.Q) > atRest || pipe.shutAt.length > 0) return false;
  // A sound check valve that points out of the line keeps air from coming in.
  const checked = pipe.checks.some(({ at }) => at >= stretch.start - samePlace && at <= stretch.end + samePlace);
  if (checked && side === "to") return false;
  return isEndInAir(state, pipe, side);
}

function isEndInAir({ system }: Pick<Steady, "system">, pipe: PipeModel, side: Side): boolean {
  const mouth = side === "from" ? pipe.mouthFrom : pipe.mouthTo;
  if (!mouth) return false;
  return (
    pipe[side].kind === "air" ||
    (mouth.i !== outside && (system.head[mouth.i] as number) < mouth.mouth.edge - atItsEdge)
  );
}

/** Whether an end of a full line stands in the air, or what carries it on there over joints is dry from the air on. */
export function isOpenAt(state: Pick<Steady, "system" | "network">, end: Entered): boolean {
  if (isEndInAir(state, end.pipe, end.side)) return true;
  const next = carriedOnAlone(state.network, end);
  return next !== undefined && isDryOver(state, next.pipe, turned(next).side);
}

/** The same, over joints by which other pipes carry the line on, as long as nothing flows in them and nothing shuts them. */
export function isDryOver(state: Pick<Steady, "system" | "network">, pipe: PipeModel, side: Side): boolean {
  const seen = new Set<PartId>();
  for (let here: Entered | undefined = { pipe, side }; here && !seen.has(here.pipe.pipe.id); ) {
    if (isDryFrom(state, here.pipe, here.side)) return true;
    if (here.pipe.shutAt.length > 0 || here.pipe.checks.length > 0) return false;
    seen.add(here.pipe.pipe.id);
    const only: Entered | undefined = carriedOnAlone(state.network, here);
    const rests: boolean | undefined = only?.pipe.stretches.every(({ link }) => Math.abs(link.Q) <= atRest);
    here = only && rests ? turned(only) : undefined;
  }
  return false;
}

/** Where to cut a main, and on which side of the cut the tees lie. */
export type Cuts = ReadonlyMap<string, Joins>;

/** The cuts that a state with some of them asks for besides; the same ones where it asks for none. A cut may be moved
 * before both legs once, and none is taken back, so that this comes to an end. */
export function moreCuts(state: Steady, cuts: Cuts): Cuts {
  const found = new Map(cuts);
  for (const [key, joins] of cutsAtDryLegs(state)) if (!cuts.has(key)) found.set(key, joins);
  for (const tee of airingTees(state.network)) {
    const before = isUnderItsTee(state, tee) ? beforeBothLegs(tee) : null;
    if (before) found.set(teeKey(tee.cut.pipe, tee.cut.at), before);
  }
  return found.size > cuts.size || [...found].some(([key, joins]) => cuts.get(key) !== joins) ? found : cuts;
}

/** m under its tee at which water counts as pulled down by what leads on */
const pulled = 1e-6;

/** Whether water arrives on one side of a cut, stands under the tee there, and none of it passes the cut. */
function isUnderItsTee({ system }: Steady, { link, atI, atJ }: AiringTee): boolean {
  if (link.state !== "rest") return false;
  return [
    { node: link.i, legs: atI },
    { node: link.j, legs: atJ },
  ].some(({ node, legs }) => {
    const arrives = legs.some((leg) => leg.way * leg.link.Q > atRest);
    return arrives && (system.head[node] as number) - velocityHead(fastestOf(legs)) < link.tee - pulled;
  });
}

/** The side that the tees have to lie on for the cut to stand between the water that arrives and both legs; null where
 * it stands there already. */
function beforeBothLegs(tee: AiringTee): Joins | null {
  const side = comesBy(tee);
  const joins: Joins = side === "from" ? "to" : side === "to" ? "from" : "beyond";
  return joins === tee.cut.joins ? null : joins;
}

function cutsAtDryLegs(state: Steady): Map<string, Joins> {
  const { network, system } = state;
  const found = new Map<string, Joins>();
  for (const pipe of network.pipes.values()) {
    for (const side of ["from", "to"] as const) {
      const place = isDryFrom(state, pipe, side) ? teeOf(state, { pipe, side }) : null;
      if (!place) continue;
      const main = network.pipes.get(place.pipe);
      const beside = besideTee(main, place.at);
      if (!main || !beside) continue;
      const { before, after } = beside;
      const passing = Math.max(Math.abs(before.link.Q), Math.abs(after.link.Q));
      const head = (system.head[before.j] as number) - velocityHead(passing / boreArea(main.pipe.bore));
      const level = network.nodes[before.j]?.head as number;
      if (passing <= atRest || head >= level - 1e-9) continue;
      // The main's own dry leg goes before a dry branch at the same tee, whatever the order of the parts.
      const key = teeKey(place.pipe, place.at);
      const wetSide = comesBy(beside);
      // Water that comes by the main meets both its legs, and leaves by the tees; else these bring it to the dry leg.
      if (place.own) found.set(key, wetSide === null ? place.own : "beyond");
      else if (!found.has(key)) found.set(key, wetSide ?? "from");
    }
  }
  return found;
}

interface TeePlace {
  readonly pipe: PartId;
  readonly at: number;
  /** the side of the main that is the dry leg; null where a branch is */
  readonly own: Side | null;
}

/** The first tee from a dry end inwards, over joints that nothing shuts. */
function teeOf({ network }: Steady, end: Entered): TeePlace | null {
  const seen = new Set<PartId>();
  for (let here: Entered | undefined = end; here && !seen.has(here.pipe.pipe.id); ) {
    const { pipe, side }: Entered = here;
    seen.add(pipe.pipe.id);
    const stretch = stretchAt({ pipe, side });
    if (!stretch || Math.abs(stretch.link.Q) > atRest || pipe.shutAt.length > 0) return null;
    const inward = side === "from" ? stretch.end : stretch.start;
    if (inward > samePlace && inward < pipe.drawn - samePlace) return { pipe: pipe.pipe.id, at: inward, own: side };
    const far: Entered = turned(here);
    const last = pipe[far.side];
    if (last.kind === "tee" && !last.joint) return { pipe: last.pipe, at: last.at, own: null };
    here = carriedOnAlone(network, far);
  }
  return null;
}
