/** Tables worked out in the design notes from the same laws by another hand: no outside fact, but a second reckoning.
 * They carry two or three digits; the tolerance is their rounding, or it says why it is more. */
import { describe, expect, test } from "vitest";
import { inletHead } from "../../hydraulics/formulas/culvertInlet.ts";
import { selfVentingFlow } from "../../hydraulics/formulas/froude.ts";
import { settlingDiameter } from "../../hydraulics/formulas/stokes.ts";
import { gallonPerHour, inch } from "../../hydraulics/formulas/units.ts";
import { ampleBore } from "../../hydraulics/formulas/ventPassage.ts";
import { waterDensity, waterViscosity } from "../../hydraulics/formulas/water.ts";
import { weirHead } from "../../hydraulics/formulas/weir.ts";
import { bisect } from "../support/bisect.ts";

const perHour = 1e-3 / 3600;

describe("litres an hour that a flush side mouth takes", () => {
  test.each([
    [34, 940, 1840, 570],
    [42.6, 1660, 2980, 1000],
    [53.6, 2980, 4910, 1770],
    [67.8, 5360, 8230, 3180],
    [81.4, 8460, 12370, 5020],
    [103.6, 15460, 21260, 9180],
  ])(
    "bore %f mm: %i with water at its crown, %i with 30 mm over it, %i self-venting",
    (boreMm, atCrown, over30, venting) => {
      const D = boreMm / 1000;
      const flowAt = (head: number) => bisect(0, 0.1, (Q) => inletHead(Q, D) - head) / perHour;

      // At its crown every bore takes D^2.5 times one number;
      // the notes' small bores lie 1.5 % off their own large ones.
      expect(Math.abs(flowAt(D) / atCrown - 1)).toBeLessThan(0.016);
      expect(Math.abs(flowAt(D + 0.03) / over30 - 1)).toBeLessThan(0.005);
      expect(Math.abs(selfVentingFlow(D) / perHour / venting - 1)).toBeLessThan(0.02);
    },
  );
});

describe("bore in mm of an ample vent on the pipe itself", () => {
  test.each([
    [0.1, 2, 5.4],
    [0.1, 4, 7.7],
    [0.1, 8, 10.9],
    [0.1, 12, 13.3],
    [0.3, 2, 4.1],
    [0.3, 4, 5.8],
    [0.3, 8, 8.3],
    [0.3, 12, 10.1],
    [0.6, 2, 3.5],
    [0.6, 4, 4.9],
    [0.6, 8, 6.9],
    [0.6, 12, 8.5],
  ])("at %f m of suction and %i m³/h it is %f", (suction, flow, boreMm) => {
    const bore = ampleBore({ passing: flow / 3600, suction, density: 1000 }, 1, 0);

    // The notes' table leaves the bracket for the air's expansion out and takes lighter air:
    // 2 % at 0.6 m, and their rounding.
    expect(Math.abs((bore ?? 0) * 1000 - boreMm)).toBeLessThan(0.05 + 0.021 * boreMm);
  });
});

test("at 5 m/h only particles over about 0.17 mm settle against the stream, at 1 m/h 0.08 mm", () => {
  const water = { viscosity: waterViscosity(15), density: waterDensity(15) };

  expect(1000 * settlingDiameter(5 / 3600, water)).toBeCloseTo(0.17, 2);
  expect(1000 * settlingDiameter(1 / 3600, water)).toBeCloseTo(0.08, 2);
});

test.each([
  [50, 11],
  [100, 18],
  [200, 28],
])("a sheet of %i gallons an hour per inch needs %i mm over a sharp crest", (gph, headMm) => {
  expect(Math.abs(1000 * weirHead((gph * gallonPerHour) / inch, 1) - headMm)).toBeLessThan(0.6);
});
