import { describe, expect, test } from "vitest";
import {
  criticalDepth,
  criticalEnergy,
  criticalEnergyAt,
  criticalFlowAt,
} from "../../hydraulics/formulas/criticalFlow.ts";
import { g } from "../../hydraulics/formulas/gravity.ts";
import { surfaceWidthShare, wetAngle, wetAreaShare } from "../../hydraulics/formulas/partFull.ts";
import { holdAgainst } from "./hold.ts";
import { criticalFlowChecks } from "./laws/criticalFlow.ts";

describe("specific energy and critical flow", () => holdAgainst(criticalFlowChecks));

// Half full everything is known by hand: A = πD²/8, T = D. Geometry, no source needed.
test.each([0.02, 0.05, 0.11, 1.2])("in a bore of %f m the flow that is critical half full is found back", (D) => {
  const A = (Math.PI * D * D) / 8;
  const Q = A * Math.sqrt((g * A) / D);

  expect(criticalDepth(Q, D)).toBeCloseTo(D / 2, 12);
  expect(criticalEnergy(Q, D)).toBeCloseTo(D / 2 + A / (2 * D), 12);
});

test.each([0.01, 0.1, 0.3, 0.6, 0.85, 0.97])(
  "a depth of %f of the bore is critical at the flow that its own section gives",
  (share) => {
    const D = 0.075;
    const angle = wetAngle(share);
    const A = D * D * wetAreaShare(angle);
    const hydraulicDepth = A / (D * surfaceWidthShare(angle));
    const Q = criticalFlowAt(A, hydraulicDepth);

    expect(Math.abs(criticalDepth(Q, D) - share * D)).toBeLessThan(1e-11);
    expect(Math.abs(criticalEnergy(Q, D) - criticalEnergyAt(share * D, hydraulicDepth))).toBeLessThan(1e-11);
  },
);

// Source: W. O. Straub, a quick and easy way to calculate critical depth (1978), yc = 1.01·D^-0.26·(Q²/g)^0.25 for
// 0.02 ≤ yc/D ≤ 0.85, SI; from memory. An approximation, by its author's claim good to a few per cent.
test.each([
  [0.05, 0.0002],
  [0.05, 0.001],
  [0.1, 0.003],
  [0.1, 0.006],
  [0.6, 0.2],
  [1.2, 1.5],
])("in a bore of %f m at %f m³/s the depth agrees with Straub's approximation within 5 per cent", (D, Q) => {
  const straub = (1.01 / D ** 0.26) * ((Q * Q) / g) ** 0.25;

  expect(straub / D).toBeLessThan(0.85);
  expect(Math.abs(criticalDepth(Q, D) / straub - 1)).toBeLessThan(0.05);
});

test("at a great flow the depth is the bore and the energy the bore plus the velocity head of the full pipe", () => {
  const D = 0.1;
  const Q = 0.5;
  const V = Q / ((Math.PI * D * D) / 4);

  expect(criticalDepth(Q, D)).toBeCloseTo(D, 6);
  expect(criticalEnergy(Q, D) / (D + (V * V) / (2 * g))).toBeCloseTo(1, 6);
});
