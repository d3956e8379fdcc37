import { describe, expect, test } from "vitest";
import { checkValve } from "../../hydraulics/elements/checkValve.ts";
import { minorLoss } from "../../hydraulics/elements/minorLoss.ts";
import { valve, valveK } from "../../hydraulics/elements/valve.ts";
import {
  bendK,
  entranceFlushK,
  entranceProjectingK,
  exitK,
  fittingK,
  stoppedPumpK,
  suddenContractionK,
  suddenEnlargementK,
  swingCheckValveK,
} from "../../hydraulics/formulas/fittingK.ts";
import { holdAgainst } from "./hold.ts";
import { minorLossChecks } from "./laws/minorLoss.ts";

describe("losses in fittings, valves and changes of bore", () => holdAgainst(minorLossChecks));

// Source: the program's own table of defaults (design notes, section 3), which the user may override.
test("every row of the table of defaults", () => {
  expect(fittingK).toEqual({ elbow90: 0.9, elbow45: 0.4, swept90: 0.45, teeRun: 0.4, teeBranch: 1.2, strainer: 1 });
  expect([entranceFlushK, entranceProjectingK, exitK, swingCheckValveK, stoppedPumpK]).toEqual([0.5, 0.8, 1, 2, 10]);
});

test("a bend costs nothing straight on, 0.4 at 45°, 0.9 at 90°, in straight lines, and 1.9 turned back", () => {
  expect([0, 22.5, 45, 67.5, 90, 180].map(bendK)).toEqual([0, 0.2, 0.4, 0.65, 0.9, 1.9]);
  expect(bendK(-45)).toBe(0.4);
});

test("between two rows a valve's K goes as a straight line in its logarithm, and on below the last", () => {
  expect(valveK("ball", 5 / 6)).toBeCloseTo(Math.sqrt(5.5 * 0.05), 12);
  expect(valveK("ball", 1 / 2)).toBeCloseTo(Math.sqrt(210 * 5.5), 9);
  expect(valveK("ball", 1 / 6) / valveK("ball", 1 / 3)).toBeCloseTo(Math.sqrt(210 / 5.5), 9);
  expect(valveK("gate", 0.125) / valveK("gate", 0.25)).toBeCloseTo(Math.sqrt(25 / 5), 9);
  expect(valveK("gate", 0)).toBe(Number.POSITIVE_INFINITY);
});

test("a shut valve is never built: the network is cut there", () => {
  expect(() => valve.build({ type: "ball", open: 0, D: 0.05 })).toThrow("finite K");
});

test("a change of bore costs only the way that changes it", () => {
  expect(suddenEnlargementK(0.05, 0.04)).toBe(0);
  expect(suddenContractionK(0.04, 0.05)).toBe(0);
  expect(suddenEnlargementK(0.04, 1e9)).toBeCloseTo(1, 12);
  expect(suddenContractionK(1e9, 0.04)).toBeCloseTo(0.5, 12);
});

test("a check valve's spring adds its opening head to the loss of the open valve", () => {
  const open = minorLoss.build({ K: 2, D: 0.04 });
  const sprung = checkValve.build({ K: 2, D: 0.04, openingHead: 0.35 });

  expect(sprung.loss(0.001) - open.loss(0.001)).toBeCloseTo(0.35, 12);
  expect(sprung.content(0.001) - open.content(0.001)).toBeCloseTo(0.35 * 0.001, 12);
});
