/** A sudden change of bore is charged along the way the water goes: a pipe from which none can come costs its neighbour
 * nothing. */
import { expect, it } from "vitest";
import type { Part, PartId } from "../../hydraulics/document/section.ts";
import { suddenContractionK, suddenEnlargementK } from "../../hydraulics/formulas/fittingK.ts";
import { g } from "../../hydraulics/formulas/gravity.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { loopedSupply, openEnd, pipe, section, valve } from "../support/builders.ts";

const base = [...loopedSupply().parts.values()];
const lifted = (more: readonly Part[] = []): number => {
  const { network, solved } = solveSteady(section([...base, ...more]));
  expect(solved.converged).toBe(true);
  return network.pumps.get("pump" as PartId)?.link?.Q ?? Number.NaN;
};

/** A pipe of 80 mm over to the pond's other side, joined to the supply of 34 mm at one of its ends. */
const wide = (at: number): Part =>
  pipe({ id: "wide", from: { pipe: "supply", at }, to: openEnd(-1, 2.5), route: [], bore: 0.08 });
const shut: Part = valve({ id: "shut", on: { pipe: "wide", at: 0.2 }, open: 0 });
/** m, of the supply as the builders draw it */
const whole = 1.2 + 2.9 + 0.6 + 0.3;

it("at the pump's outlet: an idle wide pipe leaves the flow as it was", () => {
  expect(lifted([wide(0)])).toBeCloseTo(lifted(), 9);
});

it("a wide pipe that a valve shuts off, at either end", () => {
  expect(lifted([wide(whole), shut])).toBeCloseTo(lifted(), 9);
  expect(lifted([wide(0), shut])).toBeCloseTo(lifted(), 9);
});

it("an open one that water can come from is charged still, on the narrower pipe and by direction", () => {
  const { network } = solveSteady(section([...base, wide(whole)]));
  const borne = network.pipes.get("supply" as PartId)?.bears.filter(({ what }) => what === "bore");

  expect(borne).toMatchObject([
    { kForward: suddenEnlargementK(0.034, 0.08), kBackward: suddenContractionK(0.08, 0.034) },
  ]);
});

/** The supply goes on in another bore over a top so high that nothing falls out of the open end at the joint. */
it.each([
  ["widens", 0.034, 0.08],
  ["narrows", 0.08, 0.034],
] as const)(
  "the pressures before and past a bore that %s are Bernoulli's, each with its own pipe's velocity",
  (_, first, next) => {
    const run = pipe({ to: { pipe: "onward", at: 0 }, route: [[0.4, 1.1]], bore: first, bends: "none" });
    const onward = pipe({
      id: "onward",
      from: openEnd(2, 1.1),
      to: { part: "vessel", z: 0.3, mouth: "side" },
      route: [
        [3.3, 1.1],
        [3.3, 0.3],
      ],
      bore: next,
    });
    const state = solveSteady(section([...base.filter(({ id }) => id !== "vent" && id !== "supply"), run, onward]));
    const running = readings(state, { range: new Map(), straight: new Map() });
    const flow = running.pipes.get("onward" as PartId)?.flow ?? Number.NaN;
    const before = running.pipes.get("supply" as PartId)?.gradeLine.at(-1)?.grade ?? Number.NaN;
    const past = running.pipes.get("onward" as PartId)?.gradeLine[0]?.grade ?? Number.NaN;

    const speed = (bore: number) => flow / ((Math.PI * bore ** 2) / 4);
    const lost =
      next > first
        ? (suddenEnlargementK(first, next) * speed(first) ** 2) / (2 * g)
        : (suddenContractionK(first, next) * speed(next) ** 2) / (2 * g);
    expect(flow).toBeGreaterThan(1e-4);
    expect(before - past).toBeCloseTo(lost - (speed(first) ** 2 - speed(next) ** 2) / (2 * g), 8);
  },
);
