import { describe, expect, test } from "vitest";
import { endAndInnerSlopes, monotoneCubic } from "../../hydraulics/elements/monotoneCubic.ts";
import { pumpHead, standInHead, straightLineHead } from "../../hydraulics/elements/pump.ts";
import { yearlyCost, yearlyEnergy } from "../../hydraulics/formulas/runningCost.ts";
import { holdAgainst } from "./hold.ts";
import { pumpChecks } from "./laws/pump.ts";

describe("pumps", () => holdAgainst(pumpChecks));

// Source: the example of the NAG library's routine e01bec (monotone Hermite interpolant, data and printed results), as
// reproduced in the test suite of SciPy's interpolate module (test_nag, tolerance 5e-5). Read there.
describe("the monotone cubic against the NAG library's printed example", () => {
  const x = [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20];
  const y = [0, 0.27643e-4, 0.4375e-1, 0.16918, 0.46943, 0.94374, 0.99864, 0.99992, 0.99999];
  const printed = [
    [7.99, 0],
    [9.191, 0.464],
    [10.392, 0.9645],
    [11.593, 0.9965],
    [12.794, 0.9992],
    [13.995, 0.9998],
    [15.196, 0.9999],
    [16.397, 1],
    [17.598, 1],
    [18.799, 1],
    [20, 1],
  ] as const;

  test.each(printed)("at %f it is %f", (at, value) => {
    expect(Math.abs(monotoneCubic(x, y).value(at) - value)).toBeLessThanOrEqual(5e-5);
  });
});

// Source: the test suite of the OpenGamma Strata library (PiecewiseCubicHermiteSplineInterpolatorTest, first boundary
// case): its cubics' first coefficients, from which the derivatives at the points follow. Read there.
test("end derivatives that would turn against their chord are 0, and the inner ones are the weighted harmonic mean", () => {
  const slopes = endAndInnerSlopes([1, 2, 3, 4], [1, 2, 10, 11]);

  expect([...slopes]).toEqual([0, expect.closeTo(16 / 9, 14), expect.closeTo(16 / 9, 14), 0]);
});

test("outside its points a curve goes on along its first and last chord", () => {
  const curve = pumpHead([
    [0.001, 3],
    [0.002, 2],
    [0.003, 0],
  ]);

  expect(curve.head(0)).toBeCloseTo(4, 12);
  expect(curve.head(0.004)).toBeCloseTo(-2, 12);
});

test("at half speed a pump gives half the flow at a quarter of the head", () => {
  const full = pumpHead([
    [0, 4],
    [0.001, 3],
    [0.002, 0],
  ]);
  const half = pumpHead(
    [
      [0, 4],
      [0.001, 3],
      [0.002, 0],
    ],
    0.5,
  );

  for (const flow of [0, 0.0003, 0.0008, 0.0015, 0.0025])
    expect(half.head(flow / 2)).toBeCloseTo(full.head(flow) / 4, 12);
});

test("stand-in and straight line meet at no flow and at the greatest, and differ by a quarter of the lift half way", () => {
  const parabola = standInHead(0.002, 3);
  const line = straightLineHead(0.002, 3);

  expect(parabola.head(0)).toBe(3);
  expect(parabola.head(0.002)).toBeCloseTo(0, 12);
  expect(line.head(0.002)).toBeCloseTo(0, 12);
  expect(parabola.head(0.001) - line.head(0.001)).toBeCloseTo(3 / 4, 12);
});

// Source: arithmetic; the design notes round 60 W to 526 kWh a year.
test("60 W the year round are 525.6 kWh", () => {
  expect(yearlyEnergy(60)).toBeCloseTo(525.6, 9);
  expect(yearlyCost(60, 0.3)).toBeCloseTo(157.68, 9);
});
