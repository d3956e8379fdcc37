/** What happened in a power cut, in plain words, read off its moments. */
import type { PartId, Section } from "../document/section.ts";
import { waterVolume } from "../document/volumes.ts";
import type { BodyModel } from "../network/network.ts";
import { GravityLink } from "../solver/links/gravityLink.ts";
import { type Link, outside } from "../solver/links/link.ts";
import { fadedAt, firstBelow, gainedAfter, gains } from "./between.ts";
import type { CutRun } from "./cut.ts";
import { inOrder } from "./inOrder.ts";
import { linesAtRest } from "./linesAtRest.ts";
import { runOut, stopped } from "./pace.ts";
import type { CutEvent } from "./powerCut.ts";
import { levelWords, litreWords, nameOf, started } from "./words.ts";

export function cutEvents(section: Section, cut: CutRun, pumpsWereRunning: readonly PartId[]): CutEvent[] {
  const { network, run } = cut;
  const events: CutEvent[] = [];
  const name = (id: PartId) => nameOf(section, id);
  const indexOf = new Map<Link, number>(network.links.map((link, e) => [link, e]));
  const flowAt = (link: Link, k: number): number => run.moments[k]?.flows[indexOf.get(link) as number] ?? 0;
  const timeAt = (k: number): number => run.moments[k]?.time ?? 0;
  /** s at which a flow came down to a bound for good, at moment `k` or in the step before it */
  const fadedBy = (link: Link, k: number, bound: number): number => {
    const at = (k: number) => ({ time: timeAt(k), flow: Math.abs(flowAt(link, k)) });
    return fadedAt(at(k - 1), at(k), bound);
  };
  const ranAtStart = (link: Link): boolean => Math.abs(flowAt(link, 0)) >= 1e-6;
  /** s at which what ran at the start is down to a trace; null where nothing ran, or it runs on */
  const runsOutAt = (link: Link): number | null => {
    if (!ranAtStart(link)) return null;
    const trace = runOut(flowAt(link, 0));
    const end = firstBelow(run.moments.length, (k) => Math.abs(flowAt(link, k)), trace);
    return end === null ? null : fadedBy(link, end, trace);
  };
  /** s at which a body's level came to its rim, in the step before moment `k` or at it */
  const rimReachedBy = (model: BodyModel, k: number): number => {
    const [before, at] = [run.moments[k - 1], run.moments[k]];
    if (!before || !at) return timeAt(k);
    const { body } = model;
    const wanted = waterVolume(body, body.rimLevel) - waterVolume(body, levelAt(body.id, k - 1));
    const gain = gains(network, model);
    return before.time + gainedAfter(Math.max(0, wanted), at.time - before.time, gain(before), gain(at));
  };
  /** Whether a body runs out by some mouth of the line on which a vent stands, another way than past it. */
  const drawsElsewhere = (pipe: PartId): boolean => {
    const group = network.pipes.get(pipe)?.group;
    return [...network.pipes.values()].some(
      ({ group: own, mouthFrom, mouthTo }) =>
        own === group &&
        [mouthFrom, mouthTo].some(
          (mouth) => mouth && mouth.i !== outside && run.moments.some((_, k) => flowAt(mouth, k) > stopped),
        ),
    );
  };
  const bodies = [...network.bodies.keys()];
  const levelAt = (id: PartId, k: number): number => run.moments[k]?.levels[bodies.indexOf(id)] ?? 0;
  const last = run.moments.length - 1;

  for (const id of pumpsWereRunning)
    events.push({ time: 0, part: id, code: "pumpStops", text: `The power fails: ${name(id)} stops.` });
  for (const pipe of network.pipes.values()) {
    if (pipe.runs !== "full" || pipe.checks.length === 0) continue;
    const flow = flowAt(pipe.stretches[0]?.link as Link, 0);
    const holds = pipe.stretches.some((stretch) => "stretch" in stretch.link && stretch.link.stretch.oneWay !== 0);
    if (holds && Math.abs(flow) < stopped) {
      const valve = pipe.checks[0]?.valve;
      if (valve)
        events.push({
          time: 0,
          part: valve.id,
          code: "checkValveShuts",
          text: `${name(valve.id)} shuts; the water behind it stands.`,
        });
    }
  }
  // What falls back out of the legs of a line comes after air came in: what it makes run on by a vent for a moment more
  // is no siphon that breaks.
  const untilColumns = cut.columns.size > 0 ? run.moments.findIndex((_, k) => timeAt(k) >= cut.columnsAt) : last;
  for (const [id, vent] of network.vents) {
    const { airPoint, spill } = vent;
    const spillsAt = (k: number): boolean => spill !== null && flowAt(spill, k) > stopped;
    if (airPoint) {
      const passed = run.moments.findLastIndex((_, k) => k <= untilColumns && Math.abs(flowAt(airPoint, k)) > stopped);
      if (passed < 0)
        events.push({
          time: 0,
          part: id,
          code: "siphonBroken",
          text: `${name(id)} lets air in at ${levelWords(vent.teeLevel)}: ${drawsElsewhere(vent.pipe) ? "nothing is drawn past it" : "no siphon can form"}.`,
        });
      // Where it went to the vent's open end over the tee, the water stands up to there, and no air comes in.
      else if (passed < untilColumns && !(spillsAt(passed) && vent.endLevel > vent.teeLevel + atItsTee)) {
        events.push({
          time: fadedBy(airPoint, passed + 1, stopped),
          part: id,
          code: "siphonBroken",
          text: `The water is down to the tee of ${name(id)} at ${levelWords(vent.teeLevel)}: air comes in and the siphon is broken.`,
        });
      }
    }
    const start = run.moments.findIndex((_, k) => spillsAt(k));
    if (!spill || start < 0) continue;
    events.push({
      time: timeAt(start),
      part: id,
      code: "ventSpills",
      text: `Water runs out of ${name(id)} at ${levelWords(vent.endLevel)}.`,
    });
    const end = run.moments.findLastIndex((_, k) => spillsAt(k));
    if (end < last)
      events.push({
        time: timeAt(end + 1),
        part: id,
        code: "ventStops",
        text: `${name(id)} has stopped running; ${litreWords(run.through[indexOf.get(spill) as number] ?? 0)} ran out of it.`,
      });
  }
  for (const one of run.occurrences) {
    const { prime } = one;
    if (one.what === "uncovered") {
      events.push({
        time: one.time,
        part: prime.part,
        code: "mouthUncovered",
        text: `${name(prime.body)} is down to the mouth of ${name(prime.part)} at ${levelWords(prime.mouth.mouth.edge)}: air comes in and the flow stops.`,
      });
    } else {
      events.push({
        time: one.time,
        part: prime.part,
        code: "mouthCovered",
        text: `Water covers ${name(prime.part)} up to ${levelWords(prime.refill)} again: the line fills.`,
      });
    }
  }
  for (const [id, pipe] of network.pipes) {
    // Between tees each stretch runs by itself: the pipe has run out with the last of them.
    const ran = pipe.stretches.flatMap(({ link }) => (link instanceof GravityLink && ranAtStart(link) ? [link] : []));
    const times = ran.map(runsOutAt);
    if (times.length === 0 || times.includes(null)) continue;
    const time = Math.max(...times.map(Number));
    events.push({ time, part: id, code: "returnStops", text: `${name(id)} has run out.` });
  }
  for (const [id, { link, spillway }] of network.spillways) {
    const time = runsOutAt(link);
    if (time !== null)
      events.push({
        time,
        part: id,
        code: "spillwayStops",
        text: `The sheet over ${name(id)} at ${levelWords(spillway.crestZ)} stops.`,
      });
  }
  for (const [id, model] of network.bodies) {
    const { rim, body } = model;
    const start = run.moments.findIndex((_, k) => flowAt(rim, k) > stopped);
    if (start < 0) continue;
    events.push({
      time: rimReachedBy(model, start),
      part: id,
      code: "rimPassed",
      text: `${name(id)} runs over its rim at ${levelWords(body.rimLevel)}.`,
    });
    const end = run.moments.findLastIndex((_, k) => flowAt(rim, k) > stopped);
    if (end < last)
      events.push({
        time: fadedBy(rim, end + 1, stopped),
        part: id,
        code: "rimLeft",
        text: `${name(id)} has stopped running over; ${litreWords(run.through[indexOf.get(rim) as number] ?? 0)} went over the rim.`,
      });
  }
  events.push(...linesAtRest(cut, { flowAt, timeAt, levelAt, fadedBy, name }));
  let fallen = 0;
  for (const volume of cut.columns.values()) fallen += volume;
  if (fallen > 1e-5) {
    const most = [...cut.columns].reduce((a, b) => (b[1] > a[1] ? b : a));
    const part = most[0] ?? (network.pipes.keys().next().value as PartId);
    events.push({
      time: cut.columnsAt,
      part,
      code: "columnsFall",
      text: `The water standing in the emptied legs falls back: ${litreWords(fallen)}.`,
    });
  }
  const end = run.moments[last]?.time ?? 0;
  const anyBody = bodies[0];
  if (run.settled && anyBody)
    events.push({ time: end, part: anyBody, code: "settled", text: "All levels are at rest." });
  return inOrder(events.map((event) => ({ ...event, text: started(event.text) })));
}

/** m within which a vent opens at its tee: a bare valve */
const atItsTee = 1e-3;
