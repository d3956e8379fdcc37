/** The judge: whether each vessel is held in a power cut, and at what level it ends, from levels alone.
 *
 *     final = min(start level, over all ways out: max(mouth's lowest point, receiving level, highest ample tee on it))
 *
 * for full lines, and for gravity lines the highest of mouth, inverts, far end and receiving level; receiving levels
 * are those at the end (ponds rise by what they receive, water is conserved). Design notes, section 8. It applies to
 * vessels into which nothing runs after the cut. It takes the vents' ratings and the running levels as given, and
 * shares no code with the simulation: the two check each other.
 *
 * Where the rule for a vent comes from (an ample vent draws at least as much air as water flows past it, and then
 * holds the vessel at its tee): that air is to replace the water is how air valves are sized for a line that runs
 * empty by gravity (AWWA Manual M51, Air-Release, Air/Vacuum and Combination Air Valves, 2001, chapter 4, "Sizing for
 * gravity flow"). That a hole breaks a siphon where the grade line lies under it, and at once near the crest, but far
 * from the crest perhaps only after a while because bubbles are carried off, was found by Zanje and others (Siphon
 * break phenomena associated with pipe leakage location, J. Fluids Eng. 144(11), 2022, doi 10.1115/1.4054654). Real
 * breakers let the level fall some way below the hole before the siphon is swept empty ("undershooting"); it depends
 * on the sizes of breaker and break: Kang and others, Nucl. Eng. Technol. 46(6), 2014, 817-824,
 * doi 10.5516/NET.03.2014.037; Lee and others, J. Vis. Exp. 2017, doi 10.3791/55972. These were read as abstracts only;
 * none of them gives the thresholds 1 and 1/5, which are this program's own, and the rule counts no undershoot. */

import { pipeLine } from "../document/geometry.ts";
import type { Body, PartId, Point, Section, Vessel } from "../document/section.ts";
import { levelOfVolume, waterVolume } from "../document/volumes.ts";
import { boreArea } from "../formulas/circle.ts";
import { bottomDraws } from "./closedFormDraws.ts";
import type { Destination } from "./closedFormGraph.ts";
import { bodiesOf, type Group, gather, groupsOf } from "./closedFormGroups.ts";
import { type Order, orders, type Poured, pourAll } from "./closedFormPour.ts";
import { restingLevels } from "./closedFormResting.ts";
import { type Way, waysOut } from "./closedFormWays.ts";
import type { HeldBy, VentRating, Verdict } from "./powerCut.ts";

export interface Given {
  /** running level of every body */
  readonly startLevels: ReadonlyMap<PartId, number>;
  readonly ventRatings: ReadonlyMap<PartId, VentRating>;
  /** gravity pipes whose full-bore Froude number at the delivered flow is 1 or more */
  readonly fastPipes?: ReadonlySet<PartId>;
  /** the vents as they are rated with the bottom draws followed as full lines; as in `ventRatings` where absent */
  readonly pulledRatings?: ReadonlyMap<PartId, VentRating>;
}

export interface ClosedFormVessel {
  readonly applies: boolean;
  /** why the rule does not apply; null where it does */
  readonly reason: string | null;
  /** at rest, without what falls back out of pipes; a best guess where the rule does not apply */
  readonly finalLevel: number;
  /** m by which water out of emptied legs can lift it at most */
  readonly columns: number;
  readonly verdict: Verdict;
  readonly heldBy: HeldBy;
  readonly restingLevel: number;
  /** what fixed the level */
  readonly binding: { readonly part: PartId; readonly why: string };
}

export interface ClosedForm {
  readonly vessels: ReadonlyMap<PartId, ClosedFormVessel>;
  /** final level of every body, by the first order of pouring */
  readonly levels: ReadonlyMap<PartId, number>;
  /** bodies that run over their rim in every order of pouring */
  readonly overflows: ReadonlySet<PartId>;
  /** m³, by the first order of pouring */
  readonly lostToGround: number;
}

/** A vessel drains if it ends more than this below the lower of its resting and its start level. m */
const drainsBelow = 0.02;
/** Orders of pouring that differ by more than this do not agree. m */
const agreement = 2e-4;

interface Outcome {
  readonly ways: readonly Way[];
  readonly waysFrom: ReadonlyMap<PartId, readonly Way[]>;
  readonly waysTo: ReadonlyMap<Destination, readonly Way[]>;
  readonly complete: boolean;
  readonly runs: readonly Poured[];
  /** vessels that end elsewhere in the run not taken, where which one is the worse hangs on levels outside the rule */
  readonly unsure?: ReadonlySet<PartId>;
}

export function closedForm(section: Section, given: Given): ClosedForm {
  const bodies = bodiesOf(section);
  const sound = worstOutcome(section, bodies, given, "sound");
  const hasCheckValve = [...section.parts.values()].some((part) => part.kind === "checkValve");
  const bare = hasCheckValve ? worstOutcome(section, bodies, given, "takenOut") : sound;
  const resting = restingLevels(section, given.startLevels);
  const groups = groupsAt(section);
  const first = sound.runs[0] as Poured;
  const vessels = new Map<PartId, ClosedFormVessel>();
  for (const body of bodies) {
    if (body.kind !== "vessel") continue;
    const outcomes = { sound, bare, groups: groups.get(body.id) ?? [] };
    vessels.set(body.id, judge(section, body, outcomes, resting.get(body.id) as number, given));
  }
  const overflows = new Set(
    bodies.filter((body) => sound.runs.every((run) => (run.overRim.get(body.id) ?? 0) > 1e-6)).map((body) => body.id),
  );
  return { vessels, levels: first.levels, overflows, lostToGround: first.lostToGround };
}

/** With bottom draws as gravity pipes, and as full lines: the worse one, whole. As the notes say, the run "in which the
 * lowest vessel ends lower"; where both leave that one alike, the next lowest decides. */
function worstOutcome(
  section: Section,
  bodies: readonly Body[],
  given: Given,
  checkValves: "sound" | "takenOut",
): Outcome {
  const calm = outcome(section, bodies, given, checkValves, new Set());
  const pulling = bottomDraws(section, given);
  if (pulling.size === 0) return calm;
  const rated = { ...given, ventRatings: given.pulledRatings ?? given.ventRatings };
  const pulled = outcome(section, bodies, rated, checkValves, pulling);
  const end = (vessel: Vessel, { runs }: Outcome): number => (runs[0] as Poured).levels.get(vessel.id) as number;
  const vessels = bodies.filter((body): body is Vessel => body.kind === "vessel");
  const lowestFirst = (of: Outcome): Vessel[] => [...vessels].sort((a, b) => end(a, of) - end(b, of));
  const [before, after] = [lowestFirst(calm), lowestFirst(pulled)];
  const apart = after.map((vessel, k) => end(vessel, pulled) - end(before[k] as Vessel, calm));
  const large = apart.findIndex((difference) => Math.abs(difference) > drainsBelow);
  const decides = large >= 0 ? large : apart.findIndex((difference) => Math.abs(difference) > 1e-3);
  const taken = decides >= 0 && (apart[decides] as number) < 0 ? pulled : calm;
  const weighed = decides < 0 ? vessels.length : decides + 1;
  const isUnsure =
    before.slice(0, weighed).some((vessel) => whyNot(vessel, calm)) ||
    after.slice(0, weighed).some((vessel) => whyNot(vessel, pulled));
  if (!isUnsure) return taken;
  const elsewhere = vessels.filter((vessel) => Math.abs(end(vessel, calm) - end(vessel, pulled)) > 1e-3);
  return { ...taken, unsure: new Set(elsewhere.map(({ id }) => id)) };
}

function outcome(
  section: Section,
  bodies: readonly Body[],
  given: Given,
  checkValves: "sound" | "takenOut",
  pulling: ReadonlySet<PartId>,
): Outcome {
  const { ways, complete } = waysOut(section, { ventRatings: given.ventRatings, checkValves, pulling });
  const [first, ...others] = orders as readonly [Order, ...Order[]];
  const run = pourAll(bodies, given.startLevels, ways, first);
  // With the valves taken out only a verdict is asked for,
  // and where no body has a choice one order is as good as another.
  const found = { ways, waysFrom: gather(ways, (way) => way.from), waysTo: gather(ways, (way) => way.to), complete };
  if (checkValves === "takenOut" || !hasChoice(ways, run)) return { ...found, runs: [run] };
  return { ...found, runs: [run, ...others.map((order) => pourAll(bodies, given.startLevels, ways, order))] };
}

/** Whether a body may run into more than one place. */
function hasChoice(ways: readonly Way[], run: Poured): boolean {
  const goesTo = new Map<PartId, Destination>();
  for (const way of ways) {
    const low = way.to === "ground" ? Number.NEGATIVE_INFINITY : (run.lowest.get(way.to) as number) + way.opening;
    if ((run.highest.get(way.from) as number) <= Math.max(way.bar.level, low)) continue;
    const before = goesTo.get(way.from);
    if (before !== undefined && before !== way.to) return true;
    goesTo.set(way.from, way.to);
  }
  return false;
}

function judge(
  section: Section,
  vessel: Vessel,
  { sound, bare, groups }: { sound: Outcome; bare: Outcome; groups: readonly Group[] },
  restingLevel: number,
  given: Given,
): ClosedFormVessel {
  const start = given.startLevels.get(vessel.id) as number;
  const finalLevel = (sound.runs[0] as Poured).levels.get(vessel.id) as number;
  const edge = Math.min(restingLevel, start) - drainsBelow;
  const heldBare = ((bare.runs[0] as Poured).levels.get(vessel.id) as number) >= edge;
  const verdict: Verdict = finalLevel < edge ? "drains" : "held";
  const heldBy: HeldBy = verdict === "drains" ? "nothing" : heldBare ? "geometry" : "movingPart";
  const reason =
    start < vessel.baseLevel - 1e-6 ? "its running level is given under its base" : (whyNot(vessel, sound) ?? null);
  const binding = bindingOf(vessel, sound, finalLevel, start);
  return {
    applies: reason === null,
    reason,
    finalLevel,
    columns: columnsOver(section, vessel, groups, finalLevel),
    verdict,
    heldBy,
    restingLevel,
    binding,
  };
}

/** Why levels alone do not fix where this vessel ends; undefined where they do. */
function whyNot(vessel: Vessel, { waysTo, complete, runs, unsure }: Outcome): string | undefined {
  if (unsure?.has(vessel.id)) return "which run is the worse one hangs on a vessel that water runs into";
  if (!complete) return "the network is too large for the rule's bounded search";
  if (runs.some((run) => !run.settled)) return "levels do not settle within the rule's bound";
  const lowest = Math.min(...runs.map((run) => run.lowest.get(vessel.id) as number));
  for (const way of waysTo.get(vessel.id) ?? []) {
    const source = Math.max(...runs.map((run) => run.highest.get(way.from) as number));
    if (source > Math.max(way.bar.level, lowest + way.opening) + 1e-6)
      return `water may run into it from ${way.from} by ${way.via}`;
  }
  const ends = runs.map((run) => run.levels.get(vessel.id) as number);
  if (Math.max(...ends) - Math.min(...ends) > agreement) return "how the water shares between ways hangs on flows";
  return undefined;
}

function bindingOf(
  vessel: Vessel,
  { waysFrom, runs }: Outcome,
  finalLevel: number,
  start: number,
): { part: PartId; why: string } {
  const levels = (runs[0] as Poured).levels;
  let best: { part: PartId; why: string } = { part: vessel.id, why: "nothing lets it go: its running level" };
  if (finalLevel >= start - 1e-6) return best;
  let nearest = Number.POSITIVE_INFINITY;
  for (const way of waysFrom.get(vessel.id) ?? []) {
    const received = way.to === "ground" ? Number.NEGATIVE_INFINITY : (levels.get(way.to) as number) + way.opening;
    const off = Math.abs(Math.max(way.bar.level, received) - finalLevel);
    if (off >= nearest) continue;
    nearest = off;
    best =
      received > way.bar.level && way.to !== "ground"
        ? { part: way.to, why: "the level of what it runs into" }
        : { part: way.bar.part, why: way.bar.why };
  }
  return best;
}

/** m: the pipes of every group that has an end in the vessel, emptied down to its level, all into it. Far more than
 * falls back in truth; a bound, so that a test can say how near the simulation has to come. */
function columnsOver(section: Section, vessel: Vessel, groups: readonly Group[], level: number): number {
  let volume = 0;
  for (const pipe of groups.flatMap(({ pipes }) => pipes)) {
    const line = pipeLine(section, pipe);
    for (let i = 1; i < line.length; i++) {
      const [a, b] = [line[i - 1], line[i]] as [Point, Point];
      const [low, high] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
      const share = high <= level ? 0 : low >= level ? 1 : (high - level) / (high - low);
      volume += share * Math.hypot(b[0] - a[0], b[1] - a[1]) * boreArea(pipe.bore);
    }
  }
  return Math.max(0, levelOfVolume(vessel, waterVolume(vessel, level) + volume) - level);
}

/** The groups of pipes that have an end in each body. */
function groupsAt(section: Section): ReadonlyMap<PartId, readonly Group[]> {
  const at = new Map<PartId, Set<Group>>();
  const put = (id: PartId, group: Group) => at.set(id, (at.get(id) ?? new Set()).add(group));
  for (const group of groupsOf(section)) {
    for (const pump of group.pumps) if (pump.in !== undefined) put(pump.in, group);
    for (const pipe of group.pipes) for (const end of [pipe.from, pipe.to]) if ("part" in end) put(end.part, group);
  }
  return new Map([...at].map(([id, groups]) => [id, [...groups]]));
}
