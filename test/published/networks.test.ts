import { describe, expect, test } from "vitest";
import { darcyWeisbach } from "../../hydraulics/elements/darcyWeisbach.ts";
import { hazenWilliams } from "../../hydraulics/elements/hazenWilliams.ts";
import { pump as pumpElement } from "../../hydraulics/elements/pump.ts";
import type { Section } from "../../hydraulics/index.ts";
import { partId } from "../../hydraulics/index.ts";
import { runCut } from "../../hydraulics/powerCut/cut.ts";
import { openEnd, pipe, pond, section, vessel } from "../support/builders.ts";
import { solveWater } from "../support/waterNetwork.ts";
import { holdAgainst, published } from "./hold.ts";
import { networkChecks } from "./laws/networks.ts";

describe("worked examples of whole systems", () => holdAgainst(networkChecks));

describe("tanks emptied by the program's own simulation, through the mouth of a standpipe, which is an orifice of Cd 0.6 well covered", () => {
  const mouth = 5.02;
  const tank = (bore: number, holeBore: number): Section =>
    section([
      vessel({ plan: { shape: "round", diameter: bore }, baseLevel: 5, rimLevel: 9, media: [], x: 0 }),
      pipe({
        id: "drain",
        from: { part: "vessel", x: bore / 2, z: mouth, mouth: "up" },
        to: openEnd(bore / 2, 0),
        route: [],
        bore: holeBore,
      }),
    ]);
  /** s from one head over the mouth to another, between the moments of the run by a straight line in √h */
  const timeBetween = (drawing: Section, from: number, to: number): number => {
    const { run } = runCut(drawing, new Map([[partId("vessel"), mouth + from]]), {
      checkValves: "sound",
      asFull: new Set(),
      airPoints: new Set(),
      until: 3600,
    });
    expect(run.failedAt).toBeNull();
    let before = { time: 0, root: Math.sqrt(from) };
    for (const moment of run.moments) {
      const now = { time: moment.time, root: Math.sqrt(Math.max(0, (moment.levels[0] as number) - mouth)) };
      if (now.root <= Math.sqrt(to)) {
        return before.time + ((now.time - before.time) * (before.root - Math.sqrt(to))) / (before.root - now.root);
      }
      before = now;
    }
    throw new Error("never as low as that");
  };

  test("drain-100mm-hole-part: 1.5 m of bore, from 2.5 m to 1 m through 100 mm", () => {
    const { expected, tolerance } = published.get("drain-100mm-hole-part")!;

    const time = timeBetween(tank(1.5, 0.1), 2.5, 1);

    expect(Math.abs(time / expected - 1)).toBeLessThanOrEqual(tolerance.value);
  });

  // The last 7.5 mm go over the rim as over a weir, for ever more slowly, where the source has an orifice to the end.
  // A source's time to a part of the way follows from its printed whole: it goes with √h1 − √h2.
  test("drain-1m3-hole: 1 m³ from 1 m of bore through 20 mm, down to a twentieth of the head", () => {
    const { expected } = published.get("drain-1m3-hole")!;
    const share = 1 - Math.sqrt(0.05);

    const time = timeBetween(tank(1, 0.02), 1.27324, 0.05 * 1.27324);

    expect(Math.abs(time / (expected * share) - 1)).toBeLessThanOrEqual(0.002);
  });
});

describe("a siphon drawn as a section, in the power cut's own network", () => {
  // The source gives f; the roughness that goes with it at its flow follows from Colebrook and White's formula.
  const given = published.get("siphon-12in-flow")!;
  const { drop_m, length_m, bore_m, f_darcy } = given.inputs as Record<string, number> as {
    readonly [name in "drop_m" | "length_m" | "bore_m" | "f_darcy"]: number;
  };
  const viscosity = 1.1e-6;
  const reynolds = ((given.expected / (Math.PI * (bore_m / 2) ** 2)) * bore_m) / viscosity;
  const roughness = 3.7 * bore_m * (10 ** (-1 / (2 * Math.sqrt(f_darcy))) - 2.51 / (reynolds * Math.sqrt(f_darcy)));
  // Over a crest 1 m above the upper water; what the legs lack of the source's length is drawn as extra length.
  const drawn = 2 + 10 + 2 + drop_m;
  const upperWidth = 1000;
  const siphon = (): Section =>
    section(
      [
        pond({ id: "upper", x: 0, width: upperWidth, length: 1000, bedLevel: -2, rimLevel: 1, waterLevel: 0 }),
        pond({
          id: "lower",
          x: upperWidth + 10,
          width: 1000,
          length: 1000,
          bedLevel: -drop_m - 4,
          rimLevel: -drop_m + 1,
          waterLevel: -drop_m,
        }),
        pipe({
          id: "siphon",
          from: { part: "upper", x: upperWidth, z: -1, mouth: "side" },
          to: { part: "lower", x: upperWidth + 10, z: -drop_m - 1, mouth: "side" },
          route: [
            [upperWidth, 1],
            [upperWidth + 10, 1],
          ],
          bore: bore_m,
          roughness,
          extraLength: length_m - drawn,
          bends: "none",
        }),
      ],
      { site: { friction: "darcy-weisbach", waterTemperature: 16.2 } },
    );
  const cutOf = (drawing: Section) =>
    runCut(
      drawing,
      new Map([
        [partId("upper"), 0],
        [partId("lower"), -drop_m],
      ]),
      { checkValves: "sound", asFull: new Set([partId("siphon")]), airPoints: new Set(), until: 48 * 3600 },
    );

  test("siphon-12in-flow: a drop of 25 ft, 2,000 ft of 12 in, with its entry and exit", () => {
    const { network, run } = cutOf(siphon());
    const flow = run.moments[0]?.flows[network.links.findIndex(({ part }) => part === "siphon")] ?? Number.NaN;

    expect(Math.abs(flow / given.expected - 1)).toBeLessThanOrEqual(given.tolerance.value);
  });
});

describe("pumps together", () => {
  const curve = [
    [0, 3],
    [0.0005, 2.6],
    [0.001, 1.8],
    [0.0015, 0.2],
  ] as const;
  const line = hazenWilliams.build({ L: 12, D: 0.04, C: 150 });
  const flowThrough = (
    pumps: readonly (readonly [from: string, to: string])[],
    points: readonly (readonly [number, number])[],
  ) => {
    const { flows } = solveWater({ low: 0, high: 1.2 }, [
      ...pumps.map(([from, to]) => ({
        from,
        to,
        loss: pumpElement.build({ curve: points }),
        isPump: true,
        firstGuess: 5e-4,
      })),
      { from: "outlet", to: "high", loss: line, firstGuess: 5e-4 },
    ]);
    return flows.at(-1)!;
  };

  // Source: the definition, in any pump handbook: side by side flows add at a head, in a row heads add at a flow.
  test("two equal ones side by side are one of double the flow", () => {
    const two = flowThrough(
      [
        ["low", "outlet"],
        ["low", "outlet"],
      ],
      curve,
    );
    const one = flowThrough(
      [["low", "outlet"]],
      curve.map(([flow, head]) => [2 * flow, head] as const),
    );

    expect(two / one).toBeCloseTo(1, 9);
  });

  test("two equal ones in a row are one of double the head", () => {
    const two = flowThrough(
      [
        ["low", "between"],
        ["between", "outlet"],
      ],
      curve,
    );
    const one = flowThrough(
      [["low", "outlet"]],
      curve.map(([flow, head]) => [flow, 2 * head] as const),
    );

    expect(two / one).toBeCloseTo(1, 9);
  });
});

// Source: the definition of a loop: each junction balanced, and the losses round it nothing. Residuals counted by hand.
test("a looped network balances at each junction and loses nothing round its loops", () => {
  const pipeOf = (D: number, L: number) => darcyWeisbach.build({ L, D, roughness: 1.5e-6, viscosity: 1.1e-6 });
  const lines = [
    ["high", "a", 0.05, 5],
    ["a", "b", 0.04, 8],
    ["a", "c", 0.03, 6],
    ["b", "d", 0.03, 7],
    ["c", "d", 0.05, 9],
    ["b", "c", 0.02, 4],
    ["d", "low", 0.05, 3],
  ] as const;
  const laws = lines.map(([, , D, L]) => pipeOf(D, L));
  const { flows, head } = solveWater(
    { high: 2, low: 0 },
    lines.map(([from, to], i) => ({ from, to, loss: laws[i]!, firstGuess: 1e-3 })),
  );
  const into = (node: string) =>
    lines.reduce((sum, [from, to], i) => sum + (to === node ? flows[i]! : from === node ? -flows[i]! : 0), 0);
  const around = (...path: readonly (readonly [line: number, way: 1 | -1])[]) =>
    path.reduce((sum, [line, way]) => sum + way * laws[line]!.loss(flows[line]!), 0);

  for (const node of ["a", "b", "c", "d"]) expect(Math.abs(into(node))).toBeLessThan(1e-9);
  expect(Math.abs(around([1, 1], [5, 1], [2, -1]))).toBeLessThan(1e-6);
  expect(Math.abs(around([3, 1], [4, -1], [5, -1]))).toBeLessThan(1e-6);
  expect(head("a")).toBeGreaterThan(head("d"));
});
