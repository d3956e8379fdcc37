/** The power cut of random drawings: water is conserved, and the length of the steps does not show.
 *
 * Seeded: a failure names its seed, size and mode, the smallest size first, so that `randomSection` draws it again. */
import { describe, expect, it } from "vitest";
import { lineLength, placeAt } from "../../hydraulics/document/geometry.ts";
import type { Body, PartId, Section } from "../../hydraulics/document/section.ts";
import { waterVolume } from "../../hydraulics/document/volumes.ts";
import { bottomDraws } from "../../hydraulics/powerCut/bottomDraw.ts";
import { longestCut, runCut } from "../../hydraulics/powerCut/cut.ts";
import type { EventCode, PowerCut } from "../../hydraulics/powerCut/powerCut.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { startLevelsOf } from "../../hydraulics/powerCut/startLevels.ts";
import type { Steady } from "../../hydraulics/solver/steady.ts";
import { nameOf as at, drawingCount, type Mode, modes, notFinite } from "../support/drawings.ts";
import type { Wanted } from "../support/randomSection.ts";
import { manyCuts } from "./manyCuts.ts";
import "./closedFormLaws.ts";

interface Found {
  readonly wanted: Wanted;
  readonly section: Section;
  readonly state: Steady;
  readonly cut: PowerCut;
}

const found: Record<Mode, Found[]> = { sensible: [], wild: [] };
const failed: Record<Mode, Found[]> = { sensible: [], wild: [] };
for (const { wanted, section, result } of manyCuts()) {
  if (!result) continue;
  const { state, cut } = result;
  (cut.failedAt === null ? found : failed)[wanted.mode].push({ wanted, section, state, cut });
}

it("looks at a thousand drawings", () => {
  const tried = [found, failed].flatMap((of) => modes.map((mode) => of[mode].length));

  expect(tried.reduce((sum, count) => sum + count)).toBeGreaterThanOrEqual(0.99 * drawingCount);
});

/** Fails with every case at once, the smallest first. */
function expectNone(cases: readonly string[], tried: number): void {
  expect(tried, "cases tried").toBeGreaterThan(drawingCount / 5);
  expect(cases.length, `${cases.length} of ${tried}\n${cases.slice(0, 25).join("\n")}`).toBe(0);
}

describe.each(modes)("the power cut of random %s drawings", { timeout: 600_000 }, (mode) => {
  it("runs to its end, but for a small share that names its parts", () => {
    const named = failed[mode].map(({ wanted, cut }) => `${at(wanted)}: ${cut.failedAt?.join(", ")}`);
    const nameless = failed[mode].filter(({ cut }) => cut.failedAt?.length === 0);
    const share = failed[mode].length / (failed[mode].length + found[mode].length);

    expect(nameless.map(({ wanted }) => at(wanted))).toEqual([]);
    expect(share, named.join("\n")).toBeLessThanOrEqual(mode === "sensible" ? 0 : 0.05);
  });

  it("conserves water to a millionth", () => {
    const cases = found[mode].flatMap(({ wanted, section, state }) => {
      const startLevels = startLevelsOf(state);
      const run = runCut(section, startLevels, {
        checkValves: "sound",
        asFull: new Set(),
        airPoints: new Set(),
        until: longestCut,
      });
      if (run.run.failedAt !== null) return [];
      const waterAt = (levels: ReadonlyMap<PartId, number>): number => {
        let sum = 0;
        for (const [id, level] of levels) sum += waterVolume(section.parts.get(id) as Body, level);
        return sum;
      };
      // Legs of pipes are counted in no body's volume: what falls out of them is water that comes in.
      let fallen = 0;
      for (const volume of run.columns.values()) fallen += volume;
      const before = waterAt(startLevels);
      const left = before + fallen - run.lost - waterAt(run.finalLevels);
      // Of the total, and a thousandth of a millilitre where there was hardly any.
      return Math.abs(left) <= Math.max(1e-6 * (before + fallen), 1e-9)
        ? []
        : [`${at(wanted)} ${left} m³ of ${before}`];
    });

    expectNone(cases, found[mode].length);
  });

  it("lets no water over an invert that lies above all the water it could come from, but by a siphon", () => {
    let runs = 0;
    const cases = found[mode].flatMap(({ wanted, section, state, cut }) => {
      const { pipes } = state.network;
      const mayPull = new Set(bottomDraws(state).map(({ pipe }) => pipes.get(pipe)?.group));
      return [...pipes.values()].flatMap((pipe) => {
        if (pipe.runs !== "gravity" || mayPull.has(pipe.group)) return [];
        // As far as the next tee: the history knows the flow at the `from` end.
        const end = pipe.stretches[0]?.end ?? 0;
        const places = pipe.line.map((_, k) => lineLength(pipe.line.slice(0, k + 1))).filter((here) => here <= end);
        const highest = Math.max(...[...places, end].map((here) => placeAt(pipe.line, here)[1])) - pipe.pipe.bore / 2;
        const bodies = [...pipes.values()]
          .filter(({ group }) => group === pipe.group)
          .flatMap(({ from, to }) => [from, to].flatMap((at) => (at.kind === "body" ? [at.opening.body] : [])));
        const spilled = [...section.parts.values()].some(
          (part) => part.kind === "vent" && pipes.get(part.on.pipe) === pipe,
        );
        if (spilled) return [];
        const { times, levels, flows } = cut.history;
        const over = times.flatMap((time, k) => {
          if (Math.abs(flows.get(pipe.pipe.id)?.[k] ?? 0) < 1e-7) return [];
          runs++;
          const water = Math.max(...bodies.map((id) => levels.get(id)?.[k] ?? Number.NEGATIVE_INFINITY));
          return water > highest ? [] : [`${at(wanted)} ${pipe.pipe.id} at ${time} s: ${water} under ${highest}`];
        });
        return over.slice(0, 1);
      });
    });

    expect(runs).toBeGreaterThan(drawingCount);
    expectNone(cases, found[mode].length);
  });

  it("shows numbers only", () => {
    const cases = found[mode].flatMap(({ wanted, cut }) =>
      notFinite(cut, "cut").map((path) => `${at(wanted)} ${path}`),
    );

    expectNone(cases, found[mode].length);
  });
});

describe("steps of half the length", { timeout: 600_000 }, () => {
  const halved = [...found.sensible, ...found.wild].map((one) => ({
    ...one,
    other: simulatePowerCut(one.section, one.state, { refine: 0.5 }),
  }));

  it("move final levels by less than 0.1 mm", () => {
    const cases = halved.flatMap(({ wanted, cut, other }) => {
      const bodies = [...cut.vessels, ...cut.ponds].map(([id, { finalLevel }]) => {
        const there = (other.vessels.get(id) ?? other.ponds.get(id))?.finalLevel ?? Number.NaN;
        return { id, finalLevel, apart: Math.abs(there - finalLevel) };
      });
      return bodies
        .filter(({ apart }) => !(apart < 1e-4))
        .map(({ id, finalLevel, apart }) => `${at(wanted)} ${id} ends at ${finalLevel}, ${apart} m apart`);
    });

    expectNone(cases, halved.length);
  });

  it("bring the same events, of every kind, at moments less than 1 % apart", () => {
    const seen = new Set<EventCode>();
    const cases = halved.flatMap(({ wanted, cut, other }) => {
      const [here, there] = [momentsOf(cut), momentsOf(other)];
      for (const { code } of cut.events) seen.add(code);
      return [...new Set([...here.keys(), ...there.keys()])].flatMap((which) => {
        const [one, two] = [here.get(which) ?? Number.NaN, there.get(which) ?? Number.NaN];
        // What happens as the power fails is at 0 s in both.
        return Math.abs(one - two) < 0.01 * one || (one === 0 && two === 0)
          ? []
          : [`${at(wanted)} ${which} at ${one} s and ${two} s`];
      });
    });

    expect([...seen].sort()).toEqual([...ofACut].sort());
    expectNone(cases, halved.length);
  });
});

/** Every kind of event that a cut can have but a column that parts, for which no random line is high enough. */
const ofACut: readonly EventCode[] = [
  "pumpStops",
  "checkValveShuts",
  "siphonBroken",
  "mouthUncovered",
  "mouthCovered",
  "levelsMeet",
  "ventSpills",
  "ventStops",
  "lineStops",
  "returnStops",
  "spillwayStops",
  "rimPassed",
  "rimLeft",
  "columnsFall",
  "settled",
];

/** Moments by kind of event, part, and which time it is that this happens there: not only the first. */
function momentsOf({ events }: PowerCut): ReadonlyMap<string, number> {
  const count = new Map<string, number>();
  return new Map(
    events.map(({ code, part, time }) => {
      const what = `${code} ${part}`;
      count.set(what, (count.get(what) ?? 0) + 1);
      return [`${what}, time ${count.get(what)}`, time];
    }),
  );
}
