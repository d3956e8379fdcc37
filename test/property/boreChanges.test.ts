/** A sudden change of bore is charged along the way the water goes: a pipe from which none can come costs its neighbour
 * nothing. */
import { expect, it } from "vitest";
import type { Part, PartId } from "../../hydraulics/document/section.ts";
import { suddenContractionK, suddenEnlargementK } from "../../hydraulics/formulas/fittingK.ts";
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
