/** A pipe carried on by another at its very end (format notes: "a tee at `at` 0 or at the full length of another pipe
 * is a joint: no tee loss, but the sudden change of bore"): that end is closed. So one line drawn in two pieces of one
 * bore is the same line, and a reducer loses what the change of bore costs and nothing else. */
import { expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import type { Part, PartId, Pipe, Section } from "../../hydraulics/document/section.ts";
import { partedAt } from "../../hydraulics/faults/parted.ts";
import { suddenEnlargementK } from "../../hydraulics/formulas/fittingK.ts";
import { buildNetwork } from "../../hydraulics/network/build.ts";
import { chainsOf } from "../../hydraulics/network/chains.ts";
import { pipe, pond, pump, returnPipe, section, twoTubs, vent, vessel, yard } from "../support/builders.ts";
import { inTwo } from "../support/inTwo.ts";
import { assessed, judgeAfter } from "./assessed.ts";

const idOf = (id: string): PartId => id as PartId;

const quick = (drawing: Section) => {
  const all = assess(drawing, { quick: true });
  if (!all.running.converged || !all.powerCut) throw new Error("it did not converge");
  return { ...all, running: all.running, cut: all.powerCut };
};

const siphon = yard({ without: ["vent"] });
/** It lifts the water half a metre, and the line ends in the air over the vessel: past its riser it stays dry. */
const weak = section([
  pond(),
  vessel(),
  pump({ maxFlow: 0.0006, maxHead: 0.5 }),
  pipe({
    to: { part: "vessel", x: 4.4, z: 0.7, mouth: "down" },
    route: [
      [0.4, 1.1],
      [4.4, 1.1],
    ],
  }),
  returnPipe(),
]);
const drawings: readonly (readonly [says: string, drawing: Section, id: string, at: number])[] = [
  ["a supply with an ample vent", yard(), "supply", 4.9],
  ["a supply that goes on as a siphon", siphon, "supply", 2.5],
  ["a supply parted on its way up", siphon, "supply", 0.9],
  ["a return", yard(), "return", 0.4],
  ["a branch that leaves its main at a tee", section(twoTubs(2.2)), "branch", 1],
  ["a riser that its pump can not fill", weak, "supply", 2.6],
];

it.each(drawings)("%s, drawn in two pieces, is the line that it is in one", (_, drawing, id, at) => {
  const one = quick(drawing);
  for (const backwards of [false, true]) {
    const split = inTwo(drawing, id, at, backwards);
    const two = quick(split);

    const [first, rest] = [two.running.pipes.get(idOf(id)), two.running.pipes.get(idOf("rest"))];
    const whole = one.running.pipes.get(idOf(id));
    expect(first?.flow).toBeCloseTo(whole?.flow ?? Number.NaN, 8);
    expect(rest?.flow).toBeCloseTo(whole?.flow ?? Number.NaN, 8);
    expect((first?.fittingLoss ?? 0) + (rest?.fittingLoss ?? 0)).toBeCloseTo(whole?.fittingLoss ?? Number.NaN, 6);
    expect(two.running.ponds.get(idOf("pond"))?.lossToGround).toBe(0);
    expect(two.running.vessels.get(idOf("vessel"))?.returnCapacity).toBeCloseTo(
      one.running.vessels.get(idOf("vessel"))?.returnCapacity ?? Number.NaN,
      8,
    );
    const [ended, expected] = [two.cut.vessels.get(idOf("vessel")), one.cut.vessels.get(idOf("vessel"))];
    expect(ended).toMatchObject({ verdict: expected?.verdict, heldBy: expected?.heldBy });
    expect(ended?.finalLevel).toBeCloseTo(expected?.finalLevel ?? Number.NaN, 4);
    expect(two.cut.lostToGround).toBeCloseTo(one.cut.lostToGround, 6);
    const judged = assessed(split);
    expect(judged && judgeAfter(split, judged).vessels.get(idOf("vessel"))?.verdict).toBe(expected?.verdict);
    const columns = (of: typeof one) => [...of.cut.columns].map(([body, volume]) => [body, Number(volume.toFixed(5))]);
    expect(columns(two)).toEqual(columns(one));
    const codes = (of: typeof one) => [...new Set(of.findings.map(({ code }) => code))].sort();
    expect(codes(two)).toEqual(codes(one));
  }
});

/** A riser of 32 mm on a pump, carried on in 50 mm over a crest, down into the air over a tub: suction at the joint. */
const reducer = (): Section =>
  section([
    pond(),
    vessel({ media: [] }),
    pump(),
    pipe({ to: { open: true, x: 0.4, z: 1.2 }, route: [], bore: 0.032, bends: "none" }),
    pipe({
      id: "wide",
      from: { pipe: "supply", at: 1.7 },
      to: { part: "vessel", x: 3.8, z: 0.72, mouth: "down" },
      route: [[3.8, 1.2]],
      bore: 0.05,
      bends: "none",
    }),
    returnPipe(),
  ]);

it("a reducer loses what its widening costs, no exit, and no water on the ground", () => {
  const { running, findings } = quick(reducer());
  const [narrow, wide] = [running.pipes.get(idOf("supply")), running.pipes.get(idOf("wide"))];
  const speed = (narrow?.flow ?? 0) / ((Math.PI * 0.032 ** 2) / 4);

  expect(wide?.flow).toBeCloseTo(narrow?.flow ?? Number.NaN, 9);
  expect(narrow?.fittingLoss).toBeCloseTo((suddenEnlargementK(0.032, 0.05) * speed ** 2) / (2 * 9.80665), 9);
  expect(running.ponds.get(idOf("pond"))).toMatchObject({ lossToGround: 0 });
  expect(findings.map(({ code }) => code)).not.toContain("open-end-loses-water");
  // The head of the pump is spent on the lift, on both frictions and on both sums of fittings.
  const spent = [narrow, wide].reduce((sum, each) => sum + (each?.frictionLoss ?? 0) + (each?.fittingLoss ?? 0), 0);
  expect(running.pumps.get(idOf("pump"))?.head).toBeCloseTo(0.72 - 0.01 + spent, 6);
});

it("a joint whose other pipe is shut lets nothing out", () => {
  const shut: Part = {
    kind: "valve",
    id: idOf("gate"),
    rank: 99,
    type: "gate",
    on: { pipe: idOf("wide"), at: 0.3 },
    open: 0,
  };
  const drawing = reducer();
  const { running } = quick({ ...drawing, parts: new Map([...drawing.parts, [shut.id, shut]]) });
  expect(running.pumps.get(idOf("pump"))).toMatchObject({ flow: 0, state: "shutOff" });
});

it("two pipes join at one end and share what comes", () => {
  const drawing = section([
    ...reducer().parts.values(),
    vessel({ id: "other", x: 6, media: [] }),
    pipe({
      id: "second",
      from: { pipe: "supply", at: 1.7 },
      to: { part: "other", x: 6.2, z: 0.72, mouth: "down" },
      route: [[6.2, 1.2]],
      bore: 0.032,
      bends: "none",
    }),
    returnPipe({ id: "back", from: { part: "other", z: 0.6, mouth: "side" } }),
  ]);
  const { running } = quick(drawing);
  const flow = (id: string) => running.pipes.get(idOf(id))?.flow ?? Number.NaN;
  expect(flow("second")).toBeGreaterThan(1e-4);
  expect(flow("wide") + flow("second")).toBeCloseTo(flow("supply"), 9);
  expect(running.ponds.get(idOf("pond"))?.lossToGround).toBe(0);
});

it("an overflow drawn from below in two pieces may pull like one, by both judges", () => {
  // Its arch, 0.5 m, lies in the second piece; its outlet is under the pond's water.
  const drawn = yard({
    with: [
      returnPipe({
        from: { part: "vessel", z: 0.3, mouth: "side" },
        to: { part: "pond", x: 2.5, z: -0.4, mouth: "down" },
        route: [
          [3.2, 0.3],
          [3.2, 0.5],
          [2.5, 0.5],
        ],
      }),
    ],
  });
  const one = quick(drawn);
  const split = inTwo(drawn, "return", 0.3);
  const two = quick(split);
  expect(one.findings.map(({ code }) => code)).toContain("may-siphon");
  expect(two.findings.map(({ code }) => code)).toContain("may-siphon");
  expect(two.cut.vessels.get(idOf("vessel"))?.finalLevel).toBeCloseTo(
    one.cut.vessels.get(idOf("vessel"))?.finalLevel ?? Number.NaN,
    3,
  );
  const judged = assessed(split);
  expect(judged && judgeAfter(split, judged).vessels.get(idOf("vessel"))?.finalLevel).toBeCloseTo(0.266, 3);
});

it("the two ends of a pipe that parts right at a tee stay open", () => {
  const drawing = yard({
    with: [pipe({ id: "branch", from: { pipe: "supply", at: 2 }, to: { open: true, x: 1.2, z: 1.5 }, route: [] })],
  });
  const parted = partedAt(drawing, drawing.parts.get(idOf("supply")) as Pipe, 2);
  const { running } = quick(parted.section);
  expect(running.ponds.get(idOf("pond"))?.lossToGround).toBeGreaterThan(1e-4);
});

const lowReturn = returnPipe({ from: { part: "vessel", z: 0.25, mouth: "side" }, route: [[2.7, 0.23]], bore: 0.1 });

it.each([
  ["on the first pipe", "supply", false],
  ["on the second pipe", "rest", false],
  ["on the first pipe, which joins the second", "supply", true],
  ["on the second pipe, which the first joins", "rest", true],
] as const)(
  "an ample vent right at a joint, %s, breaks the siphon and lifts the pump's water to its tee",
  (_, on, back) => {
    // On the top, a little before the way down; the vessel stands low, so that a full line pulls there.
    const at = 3.9;
    const one = quick(yard({ with: [vent({ on: { pipe: "supply", at } }), lowReturn] }));
    const split = inTwo(yard({ without: ["vent"], with: [lowReturn] }), "supply", at, back);
    const breather = vent({ on: { pipe: on, at: on === "supply" ? at : 0 } });
    const drawing = { ...split, parts: new Map([...split.parts, [breather.id, breather]]) };
    const two = quick(drawing);
    const tub = idOf("vessel");
    const breathes = idOf("vent");

    expect(two.running.pipes.get(idOf("rest"))?.flow).toBeCloseTo(
      one.running.pipes.get(idOf("supply"))?.flow ?? Number.NaN,
      8,
    );
    expect(two.running.vents.get(breathes)).toMatchObject({
      credited: true,
      state: one.running.vents.get(breathes)?.state,
      air: expect.closeTo(one.running.vents.get(breathes)?.air ?? Number.NaN, 6),
    });
    expect(two.cut.vents.get(breathes)?.rating).toBe("ample");
    expect(two.cut.vents.get(breathes)?.airToWater).toBeCloseTo(
      one.cut.vents.get(breathes)?.airToWater ?? Number.NaN,
      4,
    );
    expect(two.cut.vessels.get(tub)).toMatchObject({ verdict: "held", heldBy: "geometry" });
    expect(two.cut.vessels.get(tub)?.finalLevel).toBeCloseTo(one.cut.vessels.get(tub)?.finalLevel ?? Number.NaN, 4);
    const judged = assessed(drawing);
    expect(judged && judgeAfter(drawing, judged).vessels.get(tub)?.verdict).toBe("held");
  },
);

it("a vent past a joint breaks the siphon of the whole line", () => {
  const at = 2.5;
  const split = inTwo(siphon, "supply", at);
  const breather = vent({ on: { pipe: "rest", at: 4 - at } });
  const { cut } = quick({ ...split, parts: new Map([...split.parts, [breather.id, breather]]) });
  expect(cut.vessels.get(idOf("vessel"))).toMatchObject({ verdict: "held", heldBy: "geometry" });
});

it.each([false, true])("a branch off a tee and what carries it on are one line, from the tee down", (backwards) => {
  const whole = section(twoTubs(2.2));
  const of = (drawing: Section) => {
    const network = buildNetwork(drawing, {
      pumps: "stopped",
      checkValves: "open",
      ventsShut: true,
      asFull: new Set(),
    });
    return chainsOf(network).find(({ links }) => links.some((link) => link.pipe.pipe.id === idOf("branch")));
  };
  const [one, two] = [of(whole), of(inTwo(whole, "branch", 1, backwards))];

  expect(two?.links.map((link) => [link.pipe.pipe.id, link.along])).toEqual([
    ["branch", true],
    ["rest", true],
  ]);
  expect(two?.drawn).toBeCloseTo(one?.drawn ?? Number.NaN, 9);
  expect(two?.line.filter(([, z]) => Math.abs(z - 1.2) > 1e-6)).toEqual(one?.line);
});
