/** A tee at the top of a line, one leg of it under water and one that ends in the air. Where the leg in the air would
 * pass nothing it admits air (design notes, section 8): the tee is at atmospheric pressure, y = H − V²/2g = z_tee with
 * the velocity that arrives. Where its end lies lower than that head, some of the water falls out there; where it lies
 * so low that all of it could, the leg would have to pull to stay full, and that water goes by the other leg. Worked
 * out here from the notes' own formulas, whichever leg the main is drawn to. */
import { expect, it } from "vitest";
import type { PartId, Pipe, Point } from "../../hydraulics/document/section.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { bisect } from "../support/bisect.ts";
import { openEnd, pipe, pond, pump, section } from "../support/builders.ts";

const top = 1;
const [over, out]: Point[] = [
  [1.5, top],
  [3, top],
] as const;
const under = { part: "low", x: 3, z: -0.7, mouth: "down" } as const;
/** Lengths by the drawing: pump to tee, tee to the air, tee to the mouth under water. */
const lengths = { supply: 1.5 + 1.1, under: 1.5 + 1.7 };

interface Drawn {
  readonly airEnd: Point;
  /** of the pipe from the pump, and of the branch on it */
  readonly bore: number;
  readonly branchBore: number;
  readonly mainTo: "air" | "water";
}

const drawn = ({ airEnd, bore, branchBore, mainTo }: Drawn) => {
  const at = lengths.supply;
  const up: Point = [0.4, top];
  const [to, route]: [Pipe["to"] | object, Point[]] =
    mainTo === "air" ? [openEnd(...airEnd), [up, over as Point]] : [under, [up, out as Point]];
  const main = pipe({ to: to as never, route, bore, bends: "none", material: "pvc" });
  const other =
    mainTo === "air" ? { to: under, route: [out as Point] } : { to: openEnd(...airEnd), route: [] as Point[] };
  const branch = pipe({
    id: "branch",
    from: { pipe: "supply", at },
    ...(other as { to: never; route: Point[] }),
    bore: branchBore,
    bends: "none",
    material: "pvc",
  });
  return section([pond({ waterLevel: 0 }), pond({ id: "low", x: 2.5, waterLevel: -0.5 }), pump(), main, branch]);
};

const velocityHead = (Q: number, D: number) => (Q / ((Math.PI * D ** 2) / 4)) ** 2 / (2 * 9.80665);
/** m of L m of plastic by Hazen-Williams, C 150, with K on its velocity head */
const loss = (Q: number, L: number, D: number, K: number) =>
  (10.67 * L * Q ** 1.852) / (150 ** 1.852 * D ** 4.8704) + K * velocityHead(Q, D);

const cases: readonly (Drawn & { readonly says: string })[] = [
  { says: "0.1 m under the tee, a branch", airEnd: [1.8, 0.9], bore: 0.04, branchBore: 0.02, mainTo: "water" },
  { says: "level with the tee, a branch", airEnd: [1.8, 1], bore: 0.034, branchBore: 0.04, mainTo: "water" },
  { says: "level with the tee, the rest of the main", airEnd: [1.8, 1], bore: 0.034, branchBore: 0.034, mainTo: "air" },
  { says: "over the head at the tee: it stays dry", airEnd: [1.8, 1.3], bore: 0.034, branchBore: 0.034, mainTo: "air" },
  { says: "far under the tee, a branch", airEnd: [1.8, 0.4], bore: 0.034, branchBore: 0.03, mainTo: "water" },
  {
    says: "far under the tee, the rest of the main",
    airEnd: [1.8, 0.4],
    bore: 0.034,
    branchBore: 0.034,
    mainTo: "air",
  },
  { says: "over the head at the tee, a branch", airEnd: [1.8, 1.3], bore: 0.034, branchBore: 0.03, mainTo: "water" },
];

it.each(cases)("a leg ends in the air $says", (drawing) => {
  const { airEnd, bore, branchBore, mainTo } = drawing;
  const { network, solved } = solveSteady(drawn(drawing));
  const lifted = network.pumps.get("pump" as PartId)?.link?.Q ?? Number.NaN;
  const branch = network.pipes.get("branch" as PartId)?.stretches[0]?.link.Q ?? Number.NaN;
  const falls = mainTo === "air" ? lifted - branch : branch;

  // A tee bears 0.4 on the main past it and 1.2 on the branch's first stretch; the exit takes a velocity head.
  const head = top + velocityHead(lifted, bore);
  const [airBore, airK] = mainTo === "air" ? [bore, 0.4] : [branchBore, 1.2];
  const airLength = Math.hypot(airEnd[0] - 1.5, airEnd[1] - top);
  const carries =
    head <= airEnd[1] ? 0 : bisect(0, 0.01, (Q) => airEnd[1] + loss(Q, airLength, airBore, airK + 1) - head);
  const expected = carries < lifted ? carries : 0;
  const pumped = -(network.pumps.get("pump" as PartId)?.link?.law.loss(lifted) ?? Number.NaN);

  expect(solved.converged).toBe(true);
  expect(pumped - loss(lifted, lengths.supply, bore, 0)).toBeCloseTo(head, 6);
  expect(falls).toBeCloseTo(expected, 8);
  expect(falls).toBeLessThan(lifted);
});

it("a dry leg that goes on over a joint admits air at its tee like one drawn in one piece", () => {
  const whole = drawn({ airEnd: [1.8, 1.3], bore: 0.034, branchBore: 0.034, mainTo: "air" });
  const main = whole.parts.get("supply" as PartId) as Pipe;
  // The rest of the main past the tee, from half way up.
  const middle: Point = [1.65, 1.15];
  const { network, solved } = solveSteady(
    section([
      ...[...whole.parts.values()].filter(({ id }) => id !== main.id),
      { ...main, to: openEnd(...middle) },
      pipe({
        id: "rest",
        from: { pipe: "supply", at: lengths.supply + Math.hypot(0.15, 0.15) },
        to: openEnd(1.8, 1.3),
        route: [],
        bore: 0.034,
        bends: "none",
        material: "pvc",
      }),
    ]),
  );
  const one = solveSteady(whole).network.pumps.get("pump" as PartId)?.link?.Q ?? Number.NaN;
  expect(solved.converged).toBe(true);
  expect(network.branchAir).toHaveLength(1);
  expect(network.pumps.get("pump" as PartId)?.link?.Q).toBeCloseTo(one, 9);
});

it("where both legs pass water no air is admitted, however low the pressure at the tee", () => {
  // The mouth under water stands so little lower that the full legs share.
  const { network, system, solved } = solveSteady(
    section([
      pond({ waterLevel: 0 }),
      pond({ id: "low", x: 2.5, waterLevel: 0, rimLevel: 0.05 }),
      pump(),
      pipe({
        to: openEnd(2.2, 0.06),
        route: [
          [0.4, top],
          [2.2, top],
        ],
        bore: 0.034,
        bends: "none",
      }),
      pipe({
        id: "branch",
        from: { pipe: "supply", at: lengths.supply },
        to: { part: "low", x: 3, z: -0.2, mouth: "down" },
        route: [[3, top]],
        bore: 0.02,
        bends: "none",
      }),
    ]),
  );
  const flow = (id: string, at: number) => network.pipes.get(id as PartId)?.stretches.at(at)?.link.Q ?? Number.NaN;
  expect(solved.converged).toBe(true);
  expect(network.branchAir).toHaveLength(0);
  expect(flow("supply", -1)).toBeGreaterThan(1e-5);
  expect(flow("branch", 0)).toBeGreaterThan(1e-5);
  expect(system.head[network.pipes.get("branch" as PartId)?.stretches[0]?.i ?? -1]).toBeLessThan(top);
});
