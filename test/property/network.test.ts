/** The running state of random networks: laws that hold of every one of them.
 *
 * 2,200 drawings a run, most of them small, so that a failure is small as well; `support/drawings.ts` says how one is
 * named and shrunk. Each law is asked of all of them to which it applies. */
import { describe, expect, it } from "vitest";
import { solveRunning } from "../../hydraulics/assess.ts";
import { drawnWidth, lineLength, pipeLine } from "../../hydraulics/document/geometry.ts";
import type { Part, PartId, Pipe, PipeEnd, Point, Pump, Section } from "../../hydraulics/document/section.ts";
import type { PipeModel } from "../../hydraulics/network/network.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import type { RunningState } from "../../hydraulics/solver/running.ts";
import { type Steady, solveSteady } from "../../hydraulics/solver/steady.ts";
import { checkValve, section as drawing, pipe, pond, pump, returnPipe, vent, vessel } from "../support/builders.ts";
import { type Case, type Cases, drawings, expectLaw, modes, notFinite } from "../support/drawings.ts";
import { randomSection, type Wanted } from "../support/randomSection.ts";
import { seeded } from "../support/seeded.ts";
import { balanceTolerance, unbalanced, unmetLosses } from "./networkLaws.ts";

interface Found extends Case {
  readonly state: Steady;
}

const solve = (one: Case): Found => ({ ...one, state: solveSteady(one.section) });
const anew = (section: Section, wanted: Wanted): Found => solve({ wanted, tag: "shrunk", section });
const converged = (one: Found): Found | null => (one.state.solved.converged ? one : null);

/** Every drawing of a mode, solved once for all the tests of this file. */
const bySize = [480, 300, 160, 80, 50, 30];
const tried = { sensible: drawings("sensible", bySize).map(solve), wild: drawings("wild", bySize).map(solve) };
const casesOf = (mode: "sensible" | "wild"): Cases<Found> => ({
  cases: tried[mode].filter(converged),
  again: (section, wanted) => converged(anew(section, wanted)),
});
/** Readings take longer than the solve: once a state. */
const readOnce = new WeakMap<Steady, RunningState>();
function read(state: Steady): RunningState {
  const known = readOnce.get(state) ?? readings(state, { range: new Map(), straight: new Map() });
  readOnce.set(state, known);
  return known;
}

/** m³/s: where nothing runs faster the drawing is at rest, and what is left are trickles inside the tolerances. */
const resting = 1e-7;

/** m³/s by part, and the greatest of them */
function flowsOf({ network }: Steady): { by: ReadonlyMap<string, number>; largest: number } {
  const by = new Map<string, number>();
  for (const [id, { stretches }] of network.pipes)
    for (const [k, { link }] of stretches.entries()) by.set(`${id}/${k}`, link.Q);
  for (const [id, { link }] of network.pumps) by.set(id, link?.Q ?? 0);
  for (const [id, { link }] of network.spillways) by.set(id, link.Q);
  let largest = 0;
  for (const flow of by.values()) largest = Math.max(largest, Math.abs(flow));
  return { by, largest };
}

/** The part whose flow differs most, where that is over a share of the largest flow. */
function differing(one: Steady, other: Steady, share: number, floor = balanceTolerance): string[] {
  if (!other.solved.converged) return [`does not converge there: ${other.solved.parts.join(", ")}`];
  const mine = flowsOf(one);
  const its = flowsOf(other);
  if (mine.largest < resting) return its.largest < resting ? [] : [`at rest, and ${its.largest} m³/s`];
  let worst = Math.max(share * mine.largest, floor);
  let words: string[] = [];
  for (const [id, flow] of mine.by) {
    const there = its.by.get(id);
    const apart = there === undefined ? Number.POSITIVE_INFINITY : Math.abs(there - flow);
    if (apart <= worst) continue;
    worst = apart;
    words = [`${id} ${flow} and ${there} m³/s, largest ${mine.largest}`];
  }
  return words;
}

const withParts = (section: Section, change: (part: Part) => Part): Section => ({
  ...section,
  parts: new Map([...section.parts].map(([id, part]) => [id, change(part)])),
});

describe.each(modes)("random %s drawings", { timeout: 600_000 }, (mode) => {
  const cases = casesOf(mode);
  const tied: Cases<Found> = {
    cases: cases.cases.filter(({ state }) => !hasLooseRing(state)),
    again: (section, wanted) => {
      const one = cases.again(section, wanted);
      return one && !hasLooseRing(one.state) ? one : null;
    },
  };

  it("converge", () => {
    expectLaw(
      { cases: tried[mode], again: anew },
      ({ state, section }) => {
        const { converged, parts } = state.solved;
        const named = parts.length > 0 && parts.every((id) => section.parts.has(id));
        return converged ? [] : [`${parts.join(", ")}${named ? "" : ", which does not name its parts"}`];
      },
      { atLeast: 1000 },
    );
  });

  it("balance at every node and meet every loss equation", () => {
    expectLaw(cases, ({ state }) => [...unbalanced(state), ...unmetLosses(state)], { atLeast: 1000 });
  });

  it("balance at every body, pump and tee by what is read off", () => {
    expectLaw(cases, ({ section, state }) => readBalance(section, read(state)), { atLeast: 1000 });
  });

  it("have one state, from wherever it is sought", () => {
    expectLaw(tied, ({ section, state }) => {
      // Pumps at half their speed, ponds 50 mm lower: another state to start from.
      const changed = withParts(section, (part) =>
        part.kind === "pump"
          ? { ...part, speed: 0.5 }
          : part.kind === "pond"
            ? { ...part, waterLevel: part.waterLevel - 0.05 }
            : part,
      );
      const from = solveSteady(changed);
      return from.solved.converged ? differing(state, solveSteady(section, { from }), 1e-6) : [];
    });
  });

  it("have one state, in whatever order the parts are written", () => {
    expectLaw(tied, ({ section, state }) =>
      differing(state, solveSteady({ ...section, parts: new Map([...section.parts].reverse()) }), 1e-6),
    );
  });

  it("run the same in a mirror", () => {
    expectLaw(tied, ({ section, state }) => differing(state, solveSteady(mirrored(section)), 1e-6));
  });

  // 0.36 litres an hour is what a micrometre changes over the widest sill; less than that is no jump.
  it("hardly move for a micrometre of water, but where something switches", () => {
    expectLaw(tied, ({ section, state }) => {
      const raised = withParts(section, (part) =>
        part.kind === "pond" ? { ...part, waterLevel: part.waterLevel + 1e-6 } : part,
      );
      const other = solveSteady(raised, { from: state });
      return switches(state) === switches(other) ? differing(state, other, 1e-3, resting) : [];
    });
  });

  // Nobody draws such a line on purpose.
  if (mode === "wild")
    it("stand still where a line leads from a body of water to itself alone", () => {
      let lines = 0;
      expectLaw(cases, ({ state }) =>
        inOneWater(state).flatMap(({ pipe, stretches }) => {
          lines++;
          const most = Math.max(...stretches.map(({ link }) => Math.abs(link.Q)));
          return most <= balanceTolerance ? [] : [`${pipe.id} carries ${most} m³/s`];
        }),
      );

      expect(lines).toBeGreaterThan(0);
    });

  it("show numbers only", () => {
    expectLaw(cases, ({ section, state, wanted }) => {
      // The range from uncertain inputs takes a hundred solves: a few drawings of each size.
      const { running } = wanted.seed % 25 === 1 ? solveRunning(section) : { running: read(state) };
      return notFinite(running, "running");
    });
  });
});

/** Pipes joined to nothing but each other and one body, at one head, with no pump and no vent that spills. */
function inOneWater({ network, system }: Steady): PipeModel[] {
  const groups = new Map<number, PipeModel[]>();
  for (const one of network.pipes.values()) groups.set(one.group, [...(groups.get(one.group) ?? []), one]);
  return [...groups.values()].flatMap((group) => {
    const ends = group.flatMap(({ from, to }) => [from, to]).filter(({ kind }) => kind !== "tee");
    const bodies = new Set(ends.map((end) => (end.kind === "body" ? end.opening.body : null)));
    const [id] = bodies;
    const model = id && bodies.size === 1 ? network.bodies.get(id) : undefined;
    const spills = [...network.vents.values()].some(
      ({ pipe, endLevel }) =>
        group.some((one) => one.pipe.id === pipe) && model && endLevel <= (system.head[model.surface] as number),
    );
    return model && model.column.length === 0 && !spills ? group : [];
  });
}

/** Drawings with one pump, which runs, and no vent: a vent's rating may switch, and with several pumps a wider line
 * for one may take from another or let more back through one that stands, so that no law binds their sum. */
function withOnePump({ wanted, tag, section }: Case): Found | null {
  const parts = new Map([...section.parts].filter(([, part]) => part.kind !== "vent"));
  const bare = converged(solve({ wanted, tag, section: { ...section, parts } }));
  if (!bare) return null;
  const joined = [...bare.state.network.pumps.values()].flatMap(({ link }) => link ?? []);
  return joined.length === 1 && joined[0]?.running ? bare : null;
}

const total = ({ network }: Steady): number =>
  [...network.pumps.values()].reduce((sum, { link }) => sum + (link?.Q ?? 0), 0);

describe("the flow of a drawing with one pump", { timeout: 600_000 }, () => {
  const cases: Cases<Found> = {
    cases: tried.sensible.flatMap((one) => withOnePump(one) ?? []),
    again: (section, wanted) => withOnePump({ wanted, tag: "shrunk", section }),
  };

  it("never falls with a wider supply", () => {
    expectLaw(
      cases,
      ({ section, state }) => {
        const wide = withParts(section, (part) =>
          part.kind === "pipe" && part.id.startsWith("supply") ? { ...part, bore: part.bore * 1.1 } : part,
        );
        const other = solveSteady(wide);
        return total(other) >= total(state) * (1 - 1e-6) - balanceTolerance
          ? []
          : [`${total(state)} and ${total(other)} m³/s`];
      },
      { atLeast: 200 },
    );
  });

  it("never rises with higher vessels", () => {
    expectLaw(
      cases,
      ({ section, state }) => {
        const higher = vesselsHigher(section, 0.4);
        if (!higher) return [];
        const other = solveSteady(higher);
        return total(other) <= total(state) * (1 + 1e-6) + balanceTolerance
          ? []
          : [`${total(state)} and ${total(other)} m³/s`];
      },
      { atLeast: 200 },
    );
  });
});

it("two equal lines side by side carry twice what one carries, from a pump of twice the flow at each head", () => {
  for (let seed = 1; seed <= 150; seed++) {
    const random = seeded(seed);
    const most = random.between(0.0004, 0.003);
    const head = random.between(2.2, 5);
    const curve = (times: number): Pump["curve"] =>
      [0, 0.35, 0.7, 1].map((share) => [times * most * share, head * (1 - share ** 1.7)] as const);
    // No loss between the pump and its lines, so that nothing but the lines is doubled.
    const bore = random.pick([0.0272, 0.034, 0.0426, 0.0532]);
    const line = pipe({ bore, bends: "none" });
    const back = returnPipe();
    const again = (of: Pipe): Pipe => ({ ...of, id: `${of.id}-2` as PartId });
    const bare = [pond(), vessel({ media: [] })];
    const one = solveSteady(drawing([...bare, pump({ curve: curve(1), outletBore: bore }), line, back]));
    const two = solveSteady(
      drawing([...bare, pump({ curve: curve(2), outletBore: bore }), line, again(line), back, again(back)]),
    );

    expect(one.solved.converged && two.solved.converged, `seed ${seed}`).toBe(true);
    expect(total(one), `seed ${seed}`).toBeGreaterThan(1e-5);
    expect(Math.abs(total(two) / total(one) / 2 - 1), `seed ${seed}`).toBeLessThan(1e-6);
  }
});

describe("a pump that is shut off lifts to its greatest head and no further", () => {
  const weak = pump({
    curve: [
      [0, 0.5],
      [0.001, 0],
    ],
  });
  const high = pipe({
    to: { part: "vessel", z: 0.95, mouth: "down" },
    route: [
      [0.4, 1.2],
      [3.6, 1.2],
    ],
  });
  const liftIn = (parts: readonly Part[]): number => {
    const { solved, network, system } = solveSteady(drawing([pond(), vessel(), weak, returnPipe(), ...parts]));
    const model = network.pumps.get(weak.id);
    expect(solved.converged && model).toBeTruthy();
    return model ? (system.head[model.outlet] as number) - (system.head[model.inlet] as number) : Number.NaN;
  };

  it.each([
    ["before a dry end over its vessel", [high]],
    ["behind a sound flap with the vessel's water over it", [pipe(), checkValve()]],
    ["before a breather that cuts its line under the vessel's water", [pipe(), vent()]],
  ] as const)("%s", (_, parts) => {
    expect(liftIn(parts)).toBeGreaterThan(0.5 - 0.005);
    expect(liftIn(parts)).toBeLessThan(0.5 + 0.005);
  });
});

it("a tank that nothing but the drip feeds finds its level through a pump at its edge (wild 68 at size 5)", () => {
  expect(solveSteady(randomSection({ seed: 68, size: 5, mode: "wild" })).solved.converged).toBe(true);
});

// --- what is changed, and what is read off --------------------------------------------------------------

function mirrored(section: Section): Section {
  const point = ([x, z]: Point): Point => [-x, z];
  const end = (of: PipeEnd): PipeEnd => ("x" in of && of.x !== undefined ? { ...of, x: -of.x } : of);
  return withParts(section, (part) => {
    if (part.kind === "pipe")
      return {
        ...part,
        from: end(part.from),
        to: end(part.to),
        ...(part.route ? { route: part.route.map(point) } : {}),
      };
    if (part.kind === "pond" || part.kind === "vessel") return { ...part, x: -part.x - drawnWidth(part) };
    return "x" in part ? { ...part, x: -part.x } : part;
  });
}

/** Vessels, and everything on their side of the pumps, lifted; what ends at a pond or a pump stays there. A line's
 * first leg, up from its pump, grows by so much, and what lies past it on the line stays past it: a tee left at its
 * old place would lie before a bend that it lay behind, and lose less (seed 73 at size 3). Null where that leg leads
 * down or aside: it would shorten, or swing. */
function vesselsHigher(section: Section, by: number): Section | null {
  const isVessel = (id: PartId) => section.parts.get(id)?.kind === "vessel";
  const isPump = (of: PipeEnd) => "part" in of && section.parts.get(of.part)?.kind === "pump";
  const firstLeg = new Map<PartId, number>();
  for (const part of section.parts.values()) {
    if (part.kind !== "pipe" || !isPump(part.from)) continue;
    const [a, b] = pipeLine(section, part) as [Point, Point];
    if (a[0] !== b[0] || b[1] <= a[1]) return null;
    firstLeg.set(part.id, b[1] - a[1]);
  }
  const placed = <P extends { readonly pipe: PartId; readonly at: number }>(on: P): P => {
    const leg = firstLeg.get(on.pipe);
    return leg === undefined || on.at <= leg ? on : { ...on, at: on.at + by };
  };
  const end = (of: PipeEnd): PipeEnd =>
    "open" in of
      ? { ...of, z: of.z + by }
      : "pipe" in of
        ? placed(of)
        : of.z !== undefined && isVessel(of.part)
          ? { ...of, z: of.z + by }
          : of;
  return withParts(section, (part) => {
    if (part.kind === "vessel") return { ...part, baseLevel: part.baseLevel + by, rimLevel: part.rimLevel + by };
    if (part.kind === "spillway") return isVessel(part.from) ? { ...part, crestZ: part.crestZ + by } : part;
    if (part.kind === "valve" || part.kind === "checkValve") return { ...part, on: placed(part.on) };
    if (part.kind !== "pipe" || isPump(part.to)) return part;
    return {
      ...part,
      from: end(part.from),
      to: end(part.to),
      ...(part.route ? { route: part.route.map(([x, z]): Point => [x, z + by]) } : {}),
    };
  });
}

/** What may switch at a level, as one text: ways, and which vents and branches are credited with air. */
function switches({ network, ratings }: Steady): string {
  const ways = network.links.map((link) =>
    "state" in link ? link.state : "drowned" in link ? link.drowned : Math.sign(link.Q),
  );
  const vents = [...ratings].map(([id, { ample }]) => `${id} ${ample}`);
  return [...ways, ...vents, ...network.branchAir.map(({ pipe }) => pipe)].join();
}

/** Whether a pump runs in a ring that hangs on no body of water: nothing says at what pressure, so that it may run
 * full, or with air in it at any flow. Such a drawing has no one state (seeds 20 and 263 at size 2,
 * 10 at size 4, wild). */
function hasLooseRing({ network }: Steady): boolean {
  const ring = network.nodes.map((_, v) => v);
  const top = (v: number): number => {
    let at = v;
    while (ring[at] !== at) at = ring[at] as number;
    return at;
  };
  for (const { i, j } of network.links) if (i >= 0 && j >= 0) ring[top(i)] = top(j);
  const tied = new Set([...network.bodies.values()].map(({ surface }) => top(surface)));
  return [...network.pumps.values()].some(({ link, outlet }) => link?.running && !tied.has(top(outlet)));
}

/** Flow balance at every body, pump and tee from the readings and the drawing alone. */
function readBalance(section: Section, running: RunningState): string[] {
  const net = new Map<string, { into: number; most: number }>();
  const add = (where: string, into: number) => {
    const there = net.get(where) ?? { into: 0, most: 0 };
    net.set(where, { into: there.into + into, most: Math.max(there.most, Math.abs(into)) });
  };
  const isPump = (id: PartId) => section.parts.get(id)?.kind === "pump";
  /** Where water at a place of a pipe is balanced: at the body or pump that the pipe ends in, or at a tee. */
  const placeOn = (id: PartId, at: number): string => {
    const of = section.parts.get(id) as Pipe;
    const drawn = lineLength(pipeLine(section, of));
    const end = at < 2e-4 ? of.from : at > drawn - 2e-4 ? of.to : null;
    if (end && "part" in end)
      return isPump(end.part) ? `${end.part} ${end === of.from ? "outlet" : "inlet"}` : end.part;
    if (end && "pipe" in end) return placeOn(end.pipe, end.at);
    if (end) return "air";
    const inner = running.pipes.get(id)?.stretches.map(([start]) => start) ?? [];
    return `${id}@${inner.findIndex((start) => Math.abs(start - at) < 2e-4)}`;
  };
  for (const part of section.parts.values()) {
    if (part.kind === "pump") {
      const flow = running.pumps.get(part.id)?.flow ?? 0;
      add(part.in ?? `${part.id} inlet`, -flow);
      add(`${part.id} outlet`, flow);
    } else if (part.kind === "spillway") {
      const flow = running.spillways.get(part.id)?.flow ?? 0;
      add(part.from, -flow);
      if (part.to !== "ground") add(part.to, flow);
    } else if (part.kind === "vent") {
      const reading = running.vents.get(part.id);
      if (!reading) continue;
      add(placeOn(part.on.pipe, part.on.at), -reading.spill);
      if (reading.spillsTo && reading.spillsTo !== "ground") add(reading.spillsTo, reading.spill);
    } else if (part.kind === "vessel") {
      const overflow = running.vessels.get(part.id)?.overflow ?? 0;
      add(part.id, -overflow);
      if (part.overflow && part.overflow !== "ground") add(part.overflow, overflow);
    } else if (part.kind === "pipe") {
      for (const [start, end, flow] of running.pipes.get(part.id)?.stretches ?? []) {
        add(placeOn(part.id, start), -flow);
        add(placeOn(part.id, end), flow);
      }
    }
  }
  net.delete("air");
  for (const [id, reading] of running.ponds) add(id, -reading.netInflow);
  return [...net].flatMap(([where, { into, most }]) =>
    Math.abs(into) <= Math.max(balanceTolerance, 1e-6 * most) ? [] : [`${where} is out by ${into} m³/s of ${most}`],
  );
}
