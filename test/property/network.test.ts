/** The running state of random networks: laws that hold of every one of them.
 *
 * Seeded: a failure names its seed, size and mode, the smallest size first, so that `randomSection` draws it again.
 * DRAWINGS sets how many drawings of each mode are tried. */
import { describe, expect, it } from "vitest";
import { solveRunning } from "../../hydraulics/assess.ts";
import { drawnWidth, lineLength, pipeLine } from "../../hydraulics/document/geometry.ts";
import type { Part, PartId, Pipe, PipeEnd, Point, Pump, Section } from "../../hydraulics/document/section.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import type { RunningState } from "../../hydraulics/solver/running.ts";
import { type Steady, solveSteady } from "../../hydraulics/solver/steady.ts";
import { section as drawing, pipe, pond, pump, returnPipe, vessel } from "../support/builders.ts";
import { randomSection, type Wanted } from "../support/randomSection.ts";
import { balanceTolerance, unbalanced, unmetLosses } from "./networkLaws.ts";

const drawings = Number(process.env.DRAWINGS ?? 120);
type Mode = "sensible" | "wild";
const modes: readonly Mode[] = ["sensible", "wild"];
const sizes = [1, 2, 3, 4, 5, 6];

interface Found {
  readonly wanted: Wanted;
  readonly section: Section;
  readonly state: Steady;
}

/** Every drawing of a mode, solved; solved once for all the tests of this file. */
const solved: Record<Mode, Found[]> = { sensible: [], wild: [] };
const stuck: Record<Mode, Found[]> = { sensible: [], wild: [] };
for (const mode of modes) {
  for (const size of sizes) {
    for (let seed = 1; seed <= drawings / sizes.length; seed++) {
      const wanted = { seed, size, mode };
      const section = randomSection(wanted);
      const state = solveSteady(section);
      (state.solved.converged ? solved : stuck)[mode].push({ wanted, section, state });
    }
  }
}

const at = ({ seed, size, mode }: Wanted): string => `randomSection({ seed: ${seed}, size: ${size}, mode: "${mode}" })`;

/** Fails with every case at once, the smallest first. */
function expectNone(cases: readonly string[], tried: number): void {
  expect(tried, "cases tried").toBeGreaterThan(drawings / 8);
  expect(cases.length, `${cases.length} of ${tried}\n${cases.slice(0, 25).join("\n")}`).toBe(0);
}

const read = (state: Steady): RunningState => readings(state, { range: new Map(), straight: new Map() });

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

/** The part whose flow differs most, where that is over a share of the largest flow. A second solve that does not
 * converge has no flows to differ; `stuckAgain` counts those. */
function differing(one: Steady, other: Steady, share: number, floor = balanceTolerance): string | null {
  if (!other.solved.converged) return null;
  const mine = flowsOf(one);
  const its = flowsOf(other);
  if (mine.largest < resting) return its.largest < resting ? null : `at rest, and ${its.largest} m³/s`;
  let worst = Math.max(share * mine.largest, floor);
  let words: string | null = null;
  for (const [id, flow] of mine.by) {
    const there = its.by.get(id);
    const apart = there === undefined ? Number.POSITIVE_INFINITY : Math.abs(there - flow);
    if (apart <= worst) continue;
    worst = apart;
    words = `${id} ${flow} and ${there} m³/s, largest ${mine.largest}`;
  }
  return words;
}

const withParts = (section: Section, change: (part: Part) => Part): Section => ({
  ...section,
  parts: new Map([...section.parts].map(([id, part]) => [id, change(part)])),
});

describe.each(modes)("random %s drawings", { timeout: 600_000 }, (mode) => {
  it("converge, but for a small share that names its parts", () => {
    const tried = solved[mode].length + stuck[mode].length;
    const nameless = stuck[mode].filter(({ state, section }) => {
      const { parts } = state.solved;
      return parts.length === 0 || parts.some((id) => !section.parts.has(id));
    });
    const share = stuck[mode].length / tried;
    const named = stuck[mode].map(({ wanted, state }) => `${at(wanted)}: ${state.solved.parts.join(", ")}`);

    expect(nameless.map(({ wanted }) => at(wanted))).toEqual([]);
    // Measured with DRAWINGS=600: 5 of 600 sensible ones (0.8 %; among them seeds 39 at size 5, 7, 28 and 49 at
    // size 6) and 20 of 600 wild ones (3.3 %). The bounds leave room for the draw, not for a worse solver.
    expect(share, named.join("\n")).toBeLessThanOrEqual(mode === "sensible" ? 0.02 : 0.06);
  });

  it("balance at every node", () => {
    const cases = solved[mode].flatMap(({ wanted, state }) =>
      unbalanced(state).map((words) => `${at(wanted)} ${words}`),
    );

    expectNone(cases, solved[mode].length);
  });

  it("meet every loss equation", () => {
    const cases = solved[mode].flatMap(({ wanted, state }) =>
      unmetLosses(state).map((words) => `${at(wanted)} ${words}`),
    );

    expectNone(cases, solved[mode].length);
  });

  it("balance at every body, pump and tee by what is read off", () => {
    const cases = solved[mode].flatMap(({ wanted, section, state }) => {
      return readBalance(section, read(state)).map((words) => `${at(wanted)} ${words}`);
    });

    expectNone(cases, solved[mode].length);
  });

  // Some converge from one start and not from another: measured with DRAWINGS=600, none of the sensible ones and of
  // the wild ones two (seed 77 at size 6 from a state of slower pumps, seed 80 at size 2 with its parts turned round).
  const stuckAgain: string[] = [];
  it("have one state, from wherever it is sought", () => {
    const cases = solved[mode].flatMap(({ wanted, section, state }) => {
      // Pumps at half their speed, ponds 50 mm lower: another state to start from.
      const changed = withParts(section, (part) =>
        part.kind === "pump"
          ? { ...part, speed: 0.5 }
          : part.kind === "pond"
            ? { ...part, waterLevel: part.waterLevel - 0.05 }
            : part,
      );
      const from = solveSteady(changed);
      const again = from.solved.converged ? solveSteady(section, { from }) : state;
      if (!again.solved.converged) stuckAgain.push(at(wanted));
      const words = differing(state, again, 1e-6);
      return words ? [`${at(wanted)} ${words}`] : [];
    });

    expectNone(cases, solved[mode].length);
  });

  it("have one state, in whatever order the parts are written", () => {
    const cases = solved[mode].flatMap(({ wanted, section, state }) => {
      const turned = { ...section, parts: new Map([...section.parts].reverse()) };
      const again = solveSteady(turned);
      if (!again.solved.converged) stuckAgain.push(at(wanted));
      const words = differing(state, again, 1e-6);
      return words ? [`${at(wanted)} ${words}`] : [];
    });

    expectNone(cases, solved[mode].length);
  });

  it("converge from these other starts too, but for one in a hundred", () => {
    expect(stuckAgain.length, stuckAgain.join("\n")).toBeLessThanOrEqual(mode === "sensible" ? 0 : drawings / 100);
  });

  it("run the same in a mirror", () => {
    const cases = solved[mode].flatMap(({ wanted, section, state }) => {
      const words = differing(state, solveSteady(mirrored(section)), 1e-6);
      return words ? [`${at(wanted)} ${words}`] : [];
    });

    expectNone(cases, solved[mode].length);
  });

  // 0.36 litres an hour is what a micrometre changes over the widest sill; less than that is no jump.
  it("hardly move for a micrometre of water, but where something switches", () => {
    const cases = solved[mode].flatMap(({ wanted, section, state }) => {
      const raised = withParts(section, (part) =>
        part.kind === "pond" ? { ...part, waterLevel: part.waterLevel + 1e-6 } : part,
      );
      const other = solveSteady(raised, { from: state });
      const words = differing(state, other, 1e-3, resting);
      return words && switches(state) === switches(other) ? [`${at(wanted)} ${words}`] : [];
    });

    expectNone(cases, solved[mode].length);
  });

  it("show numbers only", () => {
    const cases = solved[mode].flatMap(({ wanted, section, state }, k) => {
      // The range from uncertain inputs takes a hundred solves: every tenth drawing.
      const { running } = k % 10 === 0 ? solveRunning(section) : { running: read(state) };
      return notFinite(running).map((path) => `${at(wanted)} ${path}`);
    });

    expectNone(cases, solved[mode].length);
  });
});

/** Drawings with one pump that runs and no vent: a vent's rating may switch, and with several pumps a wider line
 * for one may take from another, so that no law binds their sum. Nor one with a branch that lets air in at its tee: lifted out of suction it lets in
 * none, and the flow rises (seed 73 at size 3). */
const withOnePump = solved.sensible
  .map(({ wanted, section }) => {
    const bare: Section = {
      ...section,
      parts: new Map([...section.parts].filter(([, part]) => part.kind !== "vent")),
    };
    return { wanted, section: bare, state: solveSteady(bare) };
  })
  .filter(
    ({ state }) =>
      state.network.branchAir.length === 0 &&
      [...state.network.pumps.values()].filter(({ link }) => link?.running).length === 1,
  );

const total = ({ network }: Steady): number =>
  [...network.pumps.values()].reduce((sum, { link }) => sum + (link?.Q ?? 0), 0);

describe("the flow of a drawing with one pump", { timeout: 600_000 }, () => {
  it("never falls with a wider supply", () => {
    const cases = withOnePump.flatMap(({ wanted, section, state }) => {
      const wide = withParts(section, (part) =>
        part.kind === "pipe" && part.id.startsWith("supply") ? { ...part, bore: part.bore * 1.1 } : part,
      );
      const other = solveSteady(wide);
      return total(other) >= total(state) * (1 - 1e-6) - balanceTolerance
        ? []
        : [`${at(wanted)} ${total(state)} and ${total(other)} m³/s`];
    });

    expectNone(cases, withOnePump.length);
  });

  it("never rises with higher vessels", () => {
    const cases = withOnePump.flatMap(({ wanted, section, state }) => {
      const other = solveSteady(vesselsHigher(section, 0.4));
      return total(other) <= total(state) * (1 + 1e-6) + balanceTolerance
        ? []
        : [`${at(wanted)} ${total(state)} and ${total(other)} m³/s`];
    });

    expectNone(cases, withOnePump.length);
  });
});

it("two equal lines side by side carry twice what one carries, from a pump of twice the flow at each head", () => {
  const curve = (times: number): Pump["curve"] =>
    (
      [
        [0, 2.8],
        [0.0004, 2.4],
        [0.0008, 1.5],
        [0.0012, 0],
      ] as const
    ).map(([flow, head]) => [times * flow, head]);
  // No loss between the pump and its lines, so that nothing but the lines is doubled.
  const line = pipe({ bore: 0.034, bends: "none" });
  const back = returnPipe();
  const again = (of: Pipe): Pipe => ({ ...of, id: `${of.id}-2` as PartId });
  const bare = [pond(), vessel({ media: [] })];
  const one = solveSteady(drawing([...bare, pump({ curve: curve(1), outletBore: 0.034 }), line, back]));
  const two = solveSteady(
    drawing([...bare, pump({ curve: curve(2), outletBore: 0.034 }), line, again(line), back, again(back)]),
  );

  expect(one.solved.converged && two.solved.converged).toBe(true);
  expect(total(one)).toBeGreaterThan(1e-4);
  expect(Math.abs(total(two) / total(one) / 2 - 1)).toBeLessThan(1e-6);
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

/** Vessels, and everything on their side of the pumps, lifted; what ends at a pond or a pump stays there. */
function vesselsHigher(section: Section, by: number): Section {
  const isVessel = (id: PartId) => section.parts.get(id)?.kind === "vessel";
  const end = (of: PipeEnd): PipeEnd =>
    "open" in of
      ? { ...of, z: of.z + by }
      : "part" in of && of.z !== undefined && isVessel(of.part)
        ? { ...of, z: of.z + by }
        : of;
  const toPump = (of: PipeEnd) => "part" in of && section.parts.get(of.part)?.kind === "pump";
  return withParts(section, (part) => {
    if (part.kind === "vessel") return { ...part, baseLevel: part.baseLevel + by, rimLevel: part.rimLevel + by };
    if (part.kind === "spillway") return isVessel(part.from) ? { ...part, crestZ: part.crestZ + by } : part;
    if (part.kind !== "pipe" || toPump(part.to)) return part;
    return {
      ...part,
      from: end(part.from),
      to: end(part.to),
      ...(part.route ? { route: part.route.map(([x, z]): Point => [x, z + by]) } : {}),
    };
  });
}

/** What may switch at a level, as one text. */
function switches(state: Steady): string {
  return state.network.links
    .map((link) => ("state" in link ? link.state : "drowned" in link ? link.drowned : Math.sign(link.Q)))
    .join();
}

function notFinite(value: unknown, path = "running"): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value instanceof Map) return [...value].flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
  if (Array.isArray(value)) return value.flatMap((inner, k) => notFinite(inner, `${path}[${k}]`));
  if (value !== null && typeof value === "object")
    return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
  return [];
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
