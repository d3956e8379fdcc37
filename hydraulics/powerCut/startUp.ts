/** Start-up and restart: the pump runs, the vessels fill, and the pond gives the water.
 *
 * Start-up: every vessel empty to its base, media dry, ponds at their drawn level. Restart: the levels that a power
 * cut has left. The same engine as the cut. What fills the pipes is not counted (a few litres). */
import type { PartId, Section } from "../document/section.ts";
import { waterVolume } from "../document/volumes.ts";
import { GravityLink } from "../solver/links/gravityLink.ts";
import type { Link } from "../solver/links/link.ts";
import { atRest } from "../solver/rest.ts";
import { type Steady, solveSteady } from "../solver/steady.ts";
import { gainedAfter, gains } from "./between.ts";
import type { CutRun } from "./cut.ts";
import type { Moment } from "./engine.ts";
import { cutEvents } from "./events.ts";
import { historyOf } from "./history.ts";
import { inOrder } from "./inOrder.ts";
import type { CutEvent, CutHistory, EventCode } from "./powerCut.ts";
import { pumpDryTimes } from "./pumpDry.ts";
import { runWithPumps } from "./withPumps.ts";
import { levelWords, nameOf, started } from "./words.ts";

export interface StartUpPond {
  readonly startLevel: number;
  readonly lowestLevel: number;
  readonly highestLevel: number;
  readonly finalLevel: number;
  /** litres that it is short of at its lowest */
  readonly litresLent: number;
  /** m³ over its rim */
  readonly overflowVolume: number;
}

export interface StartUpVessel {
  readonly startLevel: number;
  readonly finalLevel: number;
  /** s until its water comes to the edge of the first outlet, pipe or sill, that runs; null where none ever does */
  readonly timeToReturn: number | null;
  readonly overtops: boolean;
  /** m³ over its rim */
  readonly overflowVolume: number;
}

export interface StartUp {
  readonly settled: boolean;
  /** s */
  readonly duration: number;
  readonly ponds: ReadonlyMap<PartId, StartUpPond>;
  readonly vessels: ReadonlyMap<PartId, StartUpVessel>;
  /** s until a pump's intake is down to the water, by pump; absent where it never is */
  readonly pumpsDry: ReadonlyMap<PartId, number>;
  /** m³ */
  readonly lostToGround: number;
  readonly events: readonly CutEvent[];
  readonly history: CutHistory;
  readonly failedAt: readonly PartId[] | null;
}

export interface StartUpOptions {
  /** the drawn running state, where it is known */
  readonly state?: Steady;
  /** where vessels and ponds stand at the start: for a restart the cut's final levels; absent bodies as for start-up */
  readonly levels?: ReadonlyMap<PartId, number>;
  /** s; 24 h unless told otherwise */
  readonly until?: number;
}

/** m³/s from which water counts as leaving: 0.4 L/min */
const returnsFrom = 6e-6;
/** Words of the cut that mean nothing to a pump that runs: its line is kept full, its vents were credited before. */
const ofTheCut: ReadonlySet<EventCode> = new Set<EventCode>(["siphonBroken", "mouthCovered", "lineStops"]);
const day = 24 * 3600;

/** Null where the drawn running state did not converge: there is no state that the start could lead to. */
export function startUp(section: Section, options: StartUpOptions = {}): StartUp | null {
  const state = options.state ?? solveSteady(section);
  if (!state.solved.converged) return null;
  const startLevels = new Map<PartId, number>();
  for (const [id, { body }] of state.network.bodies) {
    startLevels.set(id, options.levels?.get(id) ?? (body.kind === "pond" ? body.waterLevel : body.baseLevel));
  }
  const cut = runWithPumps(section, startLevels, { state, until: options.until ?? day });
  const history = historyOf(cut);
  const ponds = new Map<PartId, StartUpPond>();
  const vessels = new Map<PartId, StartUpVessel>();
  for (const [id, { body, rim }] of cut.network.bodies) {
    const levels = history.levels.get(id) ?? [];
    const startLevel = startLevels.get(id) as number;
    const finalLevel = levels.at(-1) ?? startLevel;
    const overflowVolume = Math.max(0, cut.run.through[cut.network.links.indexOf(rim)] ?? 0);
    if (body.kind === "pond") {
      const lowestLevel = Math.min(startLevel, ...levels);
      // The rim, not the thin sheet over it: as in the power cut.
      const highestLevel = Math.min(Math.max(startLevel, ...levels), Math.max(startLevel, body.rimLevel));
      const litresLent = 1000 * (waterVolume(body, startLevel) - waterVolume(body, lowestLevel));
      ponds.set(id, { startLevel, lowestLevel, highestLevel, finalLevel, litresLent, overflowVolume });
      continue;
    }
    vessels.set(id, {
      startLevel,
      finalLevel: Math.min(finalLevel, body.rimLevel),
      timeToReturn: timeToReturn(cut, id),
      overtops: overflowVolume > 1e-6,
      overflowVolume,
    });
  }
  const pumpsDry = pumpDryTimes(cut);
  return {
    settled: cut.run.settled,
    duration: cut.run.moments.at(-1)?.time ?? 0,
    ponds,
    vessels,
    pumpsDry,
    lostToGround: cut.lost,
    events: eventsOf(section, cut, { pumpsDry, vessels }),
    history,
    failedAt: cut.run.failedAt,
  };
}

/** The moment at which the water of a vessel comes to the lowest level at which one of its ways out runs, of the way by
 * which water is first seen to leave. */
function timeToReturn({ network, run }: CutRun, vessel: PartId): number | null {
  const model = network.bodies.get(vessel);
  if (!model) return null;
  const index = [...network.bodies.keys()].indexOf(vessel);
  const nodes = new Set([model.surface, ...model.column.map(({ node }) => node)]);
  const sills = new Map<Link, number>(
    [...network.spillways.values()].flatMap(({ spillway, link }) =>
      spillway.from === vessel ? [[link, spillway.crestZ] as const] : [],
    ),
  );
  const ways = network.links.flatMap((link, e) => {
    const crest = sills.get(link);
    if (crest !== undefined) return [{ e, sign: 1, level: crest }];
    if (!(link instanceof GravityLink)) return [];
    if (nodes.has(link.i)) return [{ e, sign: 1, level: link.forward?.sill ?? Number.POSITIVE_INFINITY }];
    return nodes.has(link.j) ? [{ e, sign: -1, level: link.backward?.sill ?? Number.POSITIVE_INFINITY }] : [];
  });
  const out = ({ e, sign }: (typeof ways)[number], { flows }: Moment): number => sign * (flows[e] ?? 0);
  const seen = run.moments.findIndex((moment) => ways.some((way) => out(way, moment) > returnsFrom));
  const first = run.moments[seen];
  if (!first) return null;
  const edge = Math.min(...ways.filter((way) => out(way, first) > returnsFrom).map(({ level }) => level));
  const levelAt = ({ levels }: Moment): number => levels[index] as number;
  const under = run.moments.slice(0, seen).findLastIndex((moment) => levelAt(moment) < edge);
  // It stood over the edge from the start, as after a cut that left it full.
  const soon = run.moments[1];
  if (under < 0 && soon && ways.some((way) => out(way, soon) > atRest)) return 0;
  const [before, after] = [run.moments[under], run.moments[under + 1]];
  if (!before || !after || levelAt(after) < edge) return first.time;
  // Up to the edge nothing leaves by these ways: what they take by the end of the step is given back.
  const gain = gains(network, model);
  const kept = gain(after) + ways.reduce((sum, way) => sum + Math.max(0, out(way, after)), 0);
  const wanted = waterVolume(model.body, edge) - waterVolume(model.body, levelAt(before));
  return before.time + gainedAfter(wanted, after.time - before.time, gain(before), kept);
}

function eventsOf(
  section: Section,
  cut: CutRun,
  { pumpsDry, vessels }: Pick<StartUp, "pumpsDry" | "vessels">,
): readonly CutEvent[] {
  const name = (id: PartId) => nameOf(section, id);
  const events: CutEvent[] = cutEvents(section, cut, []).filter(({ code }) => !ofTheCut.has(code));
  for (const { pump, link } of cut.network.pumps.values()) {
    if (link?.running) events.push({ time: 0, part: pump.id, code: "pumpStarts", text: `${name(pump.id)} starts.` });
  }
  for (const [id, time] of pumpsDry) {
    const level = cut.network.pumps.get(id)?.pump.z ?? 0;
    events.push({
      time,
      part: id,
      code: "pumpDry",
      text: `The water is down to the intake of ${name(id)} at ${levelWords(level)}: it runs dry.`,
    });
  }
  for (const [id, { timeToReturn: time }] of vessels) {
    if (time !== null)
      events.push({
        time,
        part: id,
        code: "returnRuns",
        text: `Water runs out of ${name(id)}: its outlet is reached.`,
      });
  }
  return inOrder(events.map((event) => ({ ...event, text: started(event.text) })));
}
