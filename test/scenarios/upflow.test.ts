/** Upflow (design notes, section 5): U(z) is the net flow that enters below z, over the plan. */
import { expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import type { PartId } from "../../hydraulics/document/section.ts";
import { workedOf } from "../../hydraulics/worked/workedOf.ts";
import { pipe, returnPipe, vessel, yard } from "../support/builders.ts";

const plan = (Math.PI * 0.9 ** 2) / 4;

/** A supply into the stone at a level, and an overflow drawn from 0.1 m in it. */
const rising = (supplyLevel: number) => {
  const section = yard({
    with: [
      pipe({
        to: { part: "vessel", z: supplyLevel, mouth: "side" },
        route: [
          [0.4, 0.7],
          [3.3, 0.7],
          [3.3, supplyLevel],
        ],
      }),
      returnPipe({
        from: { part: "vessel", z: 0.1, mouth: "side" },
        route: [
          [3.2, 0.1],
          [3.2, 0.55],
          [2.7, 0.54],
        ],
      }),
    ],
  });
  const { running, findings } = assess(section, { quick: true });
  const reading = running.converged ? running.vessels.get("vessel" as PartId) : undefined;
  if (!running.converged || !reading) throw new Error("it did not converge");
  const worked = workedOf(section, vessel(), running).map(({ what }) => what);
  return { reading, worked, bypassed: findings.find(({ code }) => code === "media-bypassed")?.text };
};

it("water that comes in and leaves at one level rises nowhere, and passes no stone", () => {
  const { reading, worked, bypassed } = rising(0.1);
  expect(reading.inflow).toBeGreaterThan(1e-4);
  expect(reading.upflow).toBe(0);
  expect(reading.settlingDiameter).toBeNull();
  expect(worked).not.toContain("Upflow");
  expect(bypassed).toContain("none of it passes its stone");
  expect(bypassed).toContain("leaves at one level of it");
});

it("a hand lower it rises by all that comes in", () => {
  const { reading, worked, bypassed } = rising(0.05);
  expect(reading.upflow).toBeCloseTo(reading.inflow / plan, 12);
  expect(worked).toContain("Upflow");
  expect(bypassed).toBeUndefined();
});
