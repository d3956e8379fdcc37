/** A price a metre and a metre of bore is nobody's: it is typed by the length and the bore that the sheet shows. */
import { expect, test } from "vitest";
import { pipePriceIn } from "../../editor/panels/why/pipePriceIn.ts";
import { usualWish } from "../../hydraulics/index.ts";

test("is by the metre and the millimetre, or by the foot and the inch", () => {
  const metric = pipePriceIn("metric");
  const us = pipePriceIn("us");

  expect([metric.label, us.label]).toEqual([
    "Pipe costs, per metre and millimetre of bore",
    "Pipe costs, per foot and inch of bore",
  ]);
  // 300 a metre and metre of bore: 3.048 m of 50.8 mm cost 46.45, and so do 10 ft of 2 in.
  expect((usualWish.pipePrice / metric.si) * 3.048 * 50.8).toBeCloseTo(46.4515, 3);
  expect((usualWish.pipePrice / us.si) * 10 * 2).toBeCloseTo(46.4515, 3);
});

test("says what its usual price comes to", () => {
  expect(pipePriceIn("metric").hint).toContain("0.3 makes a metre of 50\u00a0mm bore cost 15.00");
  expect(pipePriceIn("us").hint).toContain("2.32 makes a foot of 2\u00a0in bore cost 4.64");
});
