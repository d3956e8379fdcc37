/** What is told of a power cut, in the order of time and cause: what stops is told as what begins is. */
import { describe, expect, it } from "vitest";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import type { CutEvent, EventCode, PowerCut } from "../../hydraulics/powerCut/powerCut.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { startsOf } from "../../hydraulics/powerCut/starts.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { checkValve, openEnd, pipe, pond, pump, returnPipe, section, vent, vessel, yard } from "../support/builders.ts";
import { designs, drawingsIn, readDrawing, samples, trapped } from "./readDrawing.ts";

const g = 9.80665;
const cutOf = (of: Section): PowerCut => simulatePowerCut(of, solveSteady(of));
const told = ({ events }: Pick<PowerCut, "events">, code: EventCode): readonly CutEvent[] =>
  events.filter((event) => event.code === code);
const timeOf = (cut: Pick<PowerCut, "events">, code: EventCode): number => told(cut, code)[0]?.time ?? Number.NaN;

/** m, of the only vessel */
function levelAt(cut: PowerCut, time: number): number {
  const { times, levels } = cut.history;
  const [[id]] = [...cut.vessels] as [[never, unknown]];
  const curve = levels.get(id) ?? [];
  const k = times.findIndex((at) => at >= time);
  const share = (time - (times[k - 1] as number)) / ((times[k] as number) - (times[k - 1] as number));
  return (curve[k - 1] as number) + share * ((curve[k] as number) - (curve[k - 1] as number));
}

describe("legs empty once air is in", () => {
  it.each(["tee-5mm-under-rest", "tee-30mm-under-rest", "vent-low-on-pond-leg"])("%s", (name) => {
    const cut = cutOf(readDrawing(`traps/${name}.json`));

    expect(timeOf(cut, "siphonBroken")).toBeLessThan(timeOf(cut, "columnsFall"));
  });

  it.each(drawingsIn(samples, designs, trapped))("%s: no siphon breaks after its legs have emptied", (path) => {
    const cut = cutOf(readDrawing(path));
    const codes = cut.events.map(({ code }) => code);

    const fall = codes.indexOf("columnsFall");
    if (fall >= 0) expect(codes.slice(fall)).not.toContain("siphonBroken");
    expect(cut.events.map(({ time }) => time)).toEqual(cut.events.map(({ time }) => time).sort((a, b) => a - b));
  });
});

it("a pump starts before the water that it sends over a rim or out of a vent", () => {
  for (const name of ["no-outlet", "low-vent-over-pond"]) {
    const of = readDrawing(`traps/${name}.json`);
    const state = solveSteady(of);
    const restart = startsOf(of, state, simulatePowerCut(of, state))?.restart;

    expect(restart?.events.length, name).toBeGreaterThan(2);
    expect(restart?.events[0]?.code, name).toBe("pumpStarts");
  }
});

it("a vent that lets the tub out stops when the tub is down to it", () => {
  const cut = cutOf(readDrawing("traps/low-vent-over-pond.json"));
  const [from, to] = [timeOf(cut, "returnStops"), timeOf(cut, "ventStops")];

  // By Torricelli, t = 2A√h / (Ae√2g): tub 1 m by 0.7 m, vent 13 mm, its riser 0.4 m (design notes, section 7). The
  // pipe between adds a little, and what the tub still gives to its return takes a little away.
  const passage = (Math.PI * 0.013 ** 2) / 4 / Math.sqrt(1 / 0.6 ** 2 + (0.03 * 0.4) / 0.013);
  const byHand = (2 * 0.7 * Math.sqrt(levelAt(cut, from) - 0.3)) / (passage * Math.sqrt(2 * g));
  expect((to - from) / byHand).toBeGreaterThan(1);
  expect((to - from) / byHand).toBeLessThan(1.03);
  // What the tub held between its return's invert, 0.55 − 0.034, and the vent's end; and at most all that it gave.
  const litres = Number(/; ([\d.]+) L ran out/.exec(told(cut, "ventStops")[0]?.text ?? "")?.[1]);
  const [tub] = [...cut.vessels.values()];
  expect(litres).toBeGreaterThan(700 * (0.516 - 0.3));
  expect(litres).toBeLessThan(tub?.litresOut ?? 0);
});

it("a vent with a riser lets no air in where the water stands up to its open end", () => {
  // The tee at +0.500 and its end at +0.550, both under the water at about +0.616: behind the flap the vessel runs out
  // of the vent down to its end, 50 mm over the tee.
  const low = (openEndZ: number) =>
    yard({
      with: [checkValve({ on: { pipe: "supply", at: 0.5 } }), vent({ on: { pipe: "supply", at: 4.3 }, openEndZ })],
    });
  const riser = cutOf(low(0.55));
  const bare = cutOf(low(0.5));

  expect(riser.vents.get("vent" as PartId)?.rating).toBe("ample");
  expect([...riser.vessels.values()][0]?.finalLevel).toBeCloseTo(0.55, 3);
  expect(told(riser, "ventStops")).toHaveLength(1);
  expect(told(riser, "siphonBroken")).toEqual([]);
  // A bare valve opens at its tee: there the water does come down to it.
  expect([...bare.vessels.values()][0]?.finalLevel).toBeCloseTo(0.5, 3);
  expect(told(bare, "siphonBroken")[0]?.text).toContain("down to the tee of vent at +0.500");
});

describe("waters that come to stand level over a line", () => {
  /** Without a vent and with its crest under the water: the tub runs back into a pond that is nearly as high. */
  const basin = pond({ rimLevel: 0.75, waterLevel: 0.2 });
  const level = (more: readonly Part[]): Section =>
    section([
      basin,
      vessel({ media: [] }),
      pump(),
      ...more,
      returnPipe({ to: { part: "pond", z: 0.4, x: 2.7, mouth: "down" } }),
    ]);
  const whole = pipe({
    route: [
      [0.4, -0.1],
      [3.3, -0.1],
      [3.3, 0.1],
    ],
  });
  const inTwo = [
    pipe({ to: openEnd(2, -0.1), route: [[0.4, -0.1]] }),
    pipe({
      id: "rest",
      from: { pipe: "supply", at: 2 },
      route: [
        [3.3, -0.1],
        [3.3, 0.1],
      ],
    }),
  ];
  const spare = [
    pump({ id: "spare", x: 0.9 }),
    pipe({ id: "joiner", from: { part: "spare" }, to: { pipe: "supply", at: 2 }, route: [[0.9, -0.3]] }),
  ];

  it.each([
    ["in one piece", [whole]],
    ["in two pieces", inTwo],
    ["with a second pump on a tee", [whole, ...spare]],
  ])("drawn %s", (_, more) => {
    const cut = cutOf(level(more));
    const [meet, ...others] = told(cut, "levelsMeet");
    const [tub] = [...cut.vessels.values()];
    const [water] = [...cut.ponds.values()];

    // What the tub loses of its 0.636 m² the pond gains on its 6 m².
    const together = (6 * 0.2 + Math.PI * 0.45 ** 2 * (tub?.startLevel ?? 0)) / (6 + Math.PI * 0.45 ** 2);
    expect(others).toEqual([]);
    expect(meet?.text).toMatch(/^Pond and vessel stand level at \+0\.2/);
    expect(meet?.time).toBeLessThan(cut.duration);
    expect(tub?.finalLevel).toBeCloseTo(together, 3);
    expect(water?.finalLevel).toBeCloseTo(together, 3);
  });
});

describe("a jet out of a line's open end over the pond", () => {
  /** The supply to the tub's base sends a part of the water by a branch back over the pond, to an end at a level. */
  const withJet = (z: number, flap: boolean): Section =>
    section([
      pond(),
      vessel({ media: [] }),
      pump(),
      pipe({
        route: [
          [0.4, -0.1],
          [3.3, -0.1],
          [3.3, 0.1],
        ],
      }),
      ...(flap ? [checkValve({ on: { pipe: "supply", at: 0.2 } })] : []),
      pipe({
        id: "jet",
        from: { pipe: "supply", at: 1.2 },
        to: { part: "pond", x: 1.6, z, mouth: "down" },
        route: [
          [1.2, z + 0.05],
          [1.6, z + 0.05],
        ],
        bore: 0.02,
      }),
      returnPipe(),
    ]);

  it("ends when the tub is down to that end, behind a flap", () => {
    const cut = cutOf(withJet(0.4, true));
    const [jet] = told(cut, "lineStops");
    const [tub] = [...cut.vessels.values()];

    expect(jet).toMatchObject({ part: "jet", text: expect.stringContaining("+0.400") });
    expect(tub?.finalLevel).toBeCloseTo(0.4, 3);
    expect(levelAt(cut, jet?.time ?? 0)).toBeCloseTo(0.4, 3);
    expect(told(cut, "mouthUncovered")).toEqual([]);
  });

  it("ends on the way down, where the tub goes on through the pump", () => {
    const cut = cutOf(withJet(0.4, false));

    expect(told(cut, "lineStops").map(({ part }) => part)).toEqual(["jet"]);
    expect(levelAt(cut, timeOf(cut, "lineStops"))).toBeGreaterThan(0.4);
    expect(timeOf(cut, "lineStops")).toBeLessThan(timeOf(cut, "mouthUncovered"));
  });

  it("is none at an end over the tub's water", () => {
    expect(told(cutOf(withJet(0.75, true)), "lineStops")).toEqual([]);
  });

  it("is not told again where a mouth lets air in", () => {
    expect(told(cutOf(withJet(0.02, true)), "lineStops")).toEqual([]);
  });
});
