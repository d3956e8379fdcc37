/** The power cut: what becomes of the water when the pumps stop, and the verdict for every vessel.
 *
 *   running levels → vents rated once → simulation to rest → verdict; again with every check valve open (held
 *   by geometry or by a moving part?), and again with bottom draws as full lines (the worse one is the result).
 * See design notes, section 8, and `engine.ts` for the method. */
import type { PartId, Section } from "../document/section.ts";
import type { Network } from "../network/network.ts";
import { restingLevel } from "../solver/restingLevel.ts";
import type { Steady } from "../solver/steady.ts";
import { bottomDraws } from "./bottomDraw.ts";
import { type CutRun, longestCut, runCut } from "./cut.ts";
import { dryLegs } from "./dryLegs.ts";
import { cutEvents } from "./events.ts";
import { historyOf } from "./history.ts";
import { inOrder } from "./inOrder.ts";
import { partingColumns } from "./partingColumns.ts";
import type { CutPond, CutVent, CutVessel, HeldBy, PowerCut } from "./powerCut.ts";
import { rateVents } from "./rateVents.ts";
import { reasonOf } from "./reason.ts";
import { startLevelsOf } from "./startLevels.ts";

export interface PowerCutOptions {
  /** s; 48 h unless told otherwise */
  readonly until?: number;
  /** shortens every step: 0.5 halves it */
  readonly refine?: number;
}

/** m below resting and start level from which a vessel counts as draining */
export const drainsFrom = 0.02;
/** m within which two ends count as one */
const sameLevel = 1e-3;

export function simulatePowerCut(section: Section, state: Steady, options: PowerCutOptions = {}): PowerCut {
  const startLevels = startLevelsOf(state);
  const until = options.until ?? longestCut;
  const dry = dryLegs(state);
  const refine = options.refine === undefined ? {} : { refine: options.refine };
  const run = (asFull: ReadonlySet<PartId>, ratings: ReadonlyMap<PartId, CutVent>, checkValves: "sound" | "open") =>
    runCut(section, startLevels, { checkValves, asFull, airPoints: ampleOf(ratings), until, dry, ...refine });

  // The drawing as it is, and once more with overflows drawn from below as full lines; all of them at once: with one
  // alone, what it takes from its neighbour would decide by millimetres which run counts.
  const draws = bottomDraws(state).map(({ pipe }) => pipe);
  const ways = [new Set<PartId>(), ...(draws.length > 0 ? [new Set(draws)] : [])].map((siphons) => ({
    siphons,
    ratings: rateVents(section, startLevels, siphons),
  }));
  const worst = (checkValves: "sound" | "open") =>
    ways
      .map((way) => ({ ...way, cut: run(way.siphons, way.ratings, checkValves) }))
      .reduce((one, other) => (other.cut.run.failedAt === null && endsLower(other.cut, one.cut) ? other : one));
  const { siphons, ratings, cut } = worst("sound");
  const hasChecks = [...cut.network.pipes.values()].some((pipe) => pipe.checks.length > 0);
  const open = hasChecks ? worst("open").cut : null;

  const { network } = cut;
  const bodies = [...network.bodies.values()];
  const highest = (index: number): number =>
    cut.run.moments.reduce((top, { levels }) => Math.max(top, levels[index] as number), Number.NEGATIVE_INFINITY);
  const vessels = new Map<PartId, CutVessel>();
  const ponds = new Map<PartId, CutPond>();
  bodies.forEach(({ body, rim, surface }, index) => {
    const startLevel = startLevels.get(body.id) as number;
    const finalLevel = Math.min(cut.finalLevels.get(body.id) as number, body.rimLevel);
    const overRim = Math.max(0, cut.run.through[network.links.indexOf(rim)] ?? 0);
    const overflows = overRim > 1e-6;
    if (body.kind === "pond") {
      ponds.set(body.id, {
        startLevel,
        finalLevel,
        highestLevel: Math.max(startLevel, Math.min(highest(index), body.rimLevel)),
        overflows,
        overflowVolume: overRim,
      });
      return;
    }
    const resting = restingLevel(state, body) ?? startLevel;
    const isDrained = (level: number) => level < Math.min(resting, startLevel) - drainsFrom;
    const verdict = isDrained(finalLevel) ? "drains" : "held";
    const heldBy: HeldBy =
      verdict === "drains"
        ? "nothing"
        : open && isDrained(open.finalLevels.get(body.id) as number)
          ? "movingPart"
          : "geometry";
    const firstOut = cut.run.occurrences.find((event) => event.what === "uncovered" && event.prime.surface === surface);
    vessels.set(body.id, {
      verdict,
      heldBy,
      startLevel,
      finalLevel,
      highestLevel: Math.max(startLevel, Math.min(highest(index), body.rimLevel)),
      restingLevel: resting,
      litresOut: 1000 * (volumeOf(network, index, startLevel) - volumeOf(network, index, finalLevel)),
      overtops: overflows,
      timeToMouth: firstOut?.time ?? null,
      reason: reasonOf({
        section,
        vessel: body,
        verdict,
        heldBy,
        startLevel,
        finalLevel,
        restingLevel: resting,
        ratings,
        cut,
        open,
        siphons,
      }),
    });
  });

  const running = [...state.network.pumps.values()].filter(({ link }) => link?.running).map(({ pump }) => pump.id);
  const parting = partingColumns(section, { network, startLevels, airPoints: ampleOf(ratings), asFull: siphons });
  const events = inOrder([...cutEvents(section, cut, running), ...parting]);
  return {
    settled: cut.run.settled,
    duration: cut.run.moments.at(-1)?.time ?? 0,
    lostToGround: cut.lost,
    vessels,
    ponds,
    vents: shownRatings(ratings, ways[1]?.ratings),
    events,
    history: historyOf(cut),
    balanceError: cut.balanceError,
    columns: new Map([...cut.columns].flatMap(([id, volume]) => (id === null ? [] : [[id, volume] as const]))),
    failedAt: cut.run.failedAt ?? open?.run.failedAt ?? null,
  };
}

/** A vent on an overflow drawn from below works only in the run that follows it as a full line. Where that run ends
 * alike, because the vent does its work, the other one counts, in which nothing pulls there:
 * its rating is told all the same. */
const shownRatings = (
  counts: ReadonlyMap<PartId, CutVent>,
  asFull: ReadonlyMap<PartId, CutVent> | undefined,
): ReadonlyMap<PartId, CutVent> =>
  new Map([...counts].map(([id, vent]) => [id, vent.rating === "notUsed" ? (asFull?.get(id) ?? vent) : vent] as const));

const ampleOf = (ratings: ReadonlyMap<PartId, CutVent>): ReadonlySet<PartId> =>
  new Set([...ratings].filter(([, { rating }]) => rating === "ample").map(([id]) => id));

/** Whether the lowest vessel ends lower; where it does not matter to that one, the next decides. What a verdict would
 * not tell apart does not matter, unless nothing else differs: a neighbour's last litres lift or spare a vessel by
 * millimetres. (Read to the letter: a vessel that drains into a lower one, and fills it, does not make this run the
 * worse one. The finding `may-siphon` stands in any case.) */
function endsLower(one: CutRun, other: CutRun): boolean {
  const sorted = (cut: CutRun): number[] =>
    [...cut.network.bodies]
      .flatMap(([id, { body }]) => (body.kind === "vessel" ? [cut.finalLevels.get(id) as number] : []))
      .sort((a, b) => a - b);
  const its = sorted(other);
  const apart = sorted(one).map((level, k) => level - (its[k] as number));
  const decides =
    apart.find((difference) => Math.abs(difference) > drainsFrom) ??
    apart.find((difference) => Math.abs(difference) > sameLevel);
  return decides !== undefined && decides < 0;
}

function volumeOf(network: Network, index: number, level: number): number {
  const model = [...network.bodies.values()][index];
  const store = model ? network.nodes[model.surface]?.store : null;
  return store ? store.volume(level) : 0;
}
