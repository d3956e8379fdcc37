/** Branches of gravity pipes in a power cut: levels by hand from the drawing. */
import { expect, test } from "vitest";
import type { PartId } from "../../hydraulics/document/section.ts";
import { openEnd, pipe, pond, pump, section, vessel } from "../support/builders.ts";
import { assessed, judgeAfter } from "./assessed.ts";

test("a narrow branch off a wide riser stops at its own invert, not at the riser's", () => {
  // The branch, 20 mm, leaves an 80 mm riser at 0.6:
  // its invert there is 0.59, the riser's is 0.56, its far end is lower.
  const drawing = section([
    pond(),
    vessel({ baseLevel: 0, rimLevel: 1.1, media: [] }),
    pump(),
    pipe({
      to: { part: "vessel", x: 3.6, z: 1.2, mouth: "down" },
      route: [
        [0.4, 1.3],
        [3.6, 1.3],
      ],
      bore: 0.034,
    }),
    pipe({
      id: "return",
      from: { part: "vessel", z: 0.3, mouth: "side" },
      to: { part: "pond", x: 2.4, z: 0.1, mouth: "down" },
      route: [
        [3.2, 0.3],
        [3.2, 0.9],
        [2.4, 0.88],
      ],
      bore: 0.08,
    }),
    pipe({ id: "branch", from: { pipe: "return", at: 0.7 }, to: openEnd(6, 0.4), route: [[6, 0.5]], bore: 0.02 }),
  ]);
  const result = assessed(drawing);
  if (!result) throw new Error("the drawing did not converge");
  const end = result.cut.vessels.get("vessel" as PartId);

  expect(judgeAfter(drawing, result).vessels.get("vessel" as PartId)?.finalLevel).toBeCloseTo(0.59, 9);
  // What runs off at last leaves a film over the invert.
  expect(end?.finalLevel).toBeGreaterThan(0.59);
  expect(end?.finalLevel).toBeLessThan(0.592);
});
