/** One fault followed in time, to rest or for a day. */
import type { PartId } from "../document/section.ts";
import type { CutRun } from "../powerCut/cut.ts";
import { cutEvents } from "../powerCut/events.ts";
import { historyOf } from "../powerCut/history.ts";
import { inOrder } from "../powerCut/inOrder.ts";
import type { CutEvent, CutHistory, EventCode, PowerCut } from "../powerCut/powerCut.ts";
import { pumpDryTimes } from "../powerCut/pumpDry.ts";
import { simulatePowerCut } from "../powerCut/simulate.ts";
import { startLevelsOf } from "../powerCut/startLevels.ts";
import { runWithPumps } from "../powerCut/withPumps.ts";
import { levelWords, nameOf } from "../powerCut/words.ts";
import { atRest } from "../solver/rest.ts";
import type { Drawn, FaultCase } from "./faultKind.ts";

export interface Followed {
  readonly history: CutHistory;
  readonly events: readonly CutEvent[];
  readonly duration: number;
  readonly finalLevels: ReadonlyMap<PartId, number>;
  /** m³ */
  readonly lostToGround: number;
  /** vessels that end under what their outlets leave */
  readonly drained: readonly PartId[];
  /** m³ over the rim, by body */
  readonly overRim: ReadonlyMap<PartId, number>;
  readonly pumpsDry: ReadonlyMap<PartId, number>;
  /** pumps that bring less than a quarter of their drawn flow at the end */
  readonly stopped: readonly PartId[];
  readonly failedAt: readonly PartId[] | null;
  readonly cut: PowerCut | null;
}

const day = 24 * 3600;
/** m: an answer in words needs no tenth of a millimetre */
const tolerance = 2e-3;
/** m below start or resting level from which a vessel counts as drained, as in the power cut */
const drainsFrom = 0.02;
/** m³ over a rim that are worth a word */
const overRimFrom = 1e-4;
/** share of its drawn flow under which a pump counts as all but stopped. Chosen here, no source. */
const hardly = 0.25;

export const follow = (drawn: Drawn, fault: FaultCase): Followed =>
  fault.run === "powerCut" ? throughPowerCut(drawn, fault) : withPumpsOn(drawn, fault);

function throughPowerCut({ state }: Drawn, fault: FaultCase): Followed {
  const cut: PowerCut = fault.known ?? simulatePowerCut(fault.section, state, { until: day });
  const finalLevels = new Map<PartId, number>();
  const overRim = new Map<PartId, number>();
  for (const [id, vessel] of cut.vessels) {
    finalLevels.set(id, vessel.finalLevel);
    if (vessel.overtops) overRim.set(id, overRimFrom);
  }
  for (const [id, pond] of cut.ponds) {
    finalLevels.set(id, pond.finalLevel);
    if (pond.overflowVolume > overRimFrom) overRim.set(id, pond.overflowVolume);
  }
  return {
    history: cut.history,
    events: cut.events,
    duration: cut.duration,
    finalLevels,
    lostToGround: cut.lostToGround,
    drained: [...cut.vessels].filter(([, { verdict }]) => verdict === "drains").map(([id]) => id),
    overRim,
    pumpsDry: new Map(),
    stopped: [],
    failedAt: cut.failedAt,
    cut,
  };
}

function withPumpsOn(drawn: Drawn, fault: FaultCase): Followed {
  const { state, powerCut } = drawn;
  const levels = new Map([...startLevelsOf(state), ...(fault.levels ?? [])]);
  const cut = runWithPumps(fault.section, levels, {
    state,
    until: day,
    tolerance,
    ...(fault.asFull ? { asFull: fault.asFull } : {}),
  });
  const overRim = new Map<PartId, number>();
  const drained: PartId[] = [];
  const finalLevels = new Map<PartId, number>();
  for (const [id, { body, rim }] of cut.network.bodies) {
    const over = (cut.run.through[cut.network.links.indexOf(rim)] ?? 0) + (fault.spilt?.get(id) ?? 0);
    if (over > overRimFrom) overRim.set(id, over);
    const level = Math.min(body.rimLevel, cut.finalLevels.get(id) as number);
    finalLevels.set(id, level);
    const was = powerCut.vessels.get(id);
    if (was && level < Math.min(was.restingLevel, was.startLevel) - drainsFrom) drained.push(id);
  }
  const pumpsDry = pumpDryTimes(cut);
  let spilt = 0;
  for (const volume of fault.spilt?.values() ?? []) spilt += volume;
  return {
    history: historyOf(cut),
    events: eventsOf(drawn, cut, pumpsDry),
    duration: cut.run.moments.at(-1)?.time ?? 0,
    finalLevels,
    lostToGround: cut.lost + spilt,
    drained,
    overRim,
    pumpsDry,
    stopped: stoppedPumps(drawn, cut),
    failedAt: cut.run.failedAt,
    cut: null,
  };
}

function stoppedPumps({ state }: Drawn, { network }: CutRun): readonly PartId[] {
  const stopped: PartId[] = [];
  for (const [id, { link }] of network.pumps) {
    const drawn = state.network.pumps.get(id)?.link?.Q ?? 0;
    if (drawn > atRest && link && link.Q < hardly * drawn) stopped.push(id);
  }
  return stopped;
}

/** Words of the cut that mean nothing while the pump runs: its line is kept full, its vents were credited before. */
const ofTheCut: ReadonlySet<EventCode> = new Set<EventCode>([
  "siphonBroken",
  "mouthCovered",
  "checkValveShuts",
  "lineStops",
]);

function eventsOf({ section }: Drawn, cut: CutRun, pumpsDry: ReadonlyMap<PartId, number>): readonly CutEvent[] {
  const dry = [...pumpsDry].map(
    ([id, time]): CutEvent => ({
      time,
      part: id,
      code: "pumpDry",
      text: `The water is down to the intake of ${nameOf(section, id)} at ${levelWords(cut.network.pumps.get(id)?.pump.z ?? 0)}: it runs dry.`,
    }),
  );
  return inOrder([...cutEvents(cut.network.section, cut, []).filter(({ code }) => !ofTheCut.has(code)), ...dry]);
}
