/** The size of a pond is nothing to the vessel beside it. By reasoning: a pond's level that hardly moves for 2.6 m of
 * pond does not move for a lake, so the vessel runs out over the same outlet to the same invert. */
import { expect, test } from "vitest";
import { assess, partId, type Section } from "../../hydraulics/index.ts";
import { readDrawing } from "./readDrawing.ts";

const courtyard = readDrawing("design/courtyard.json");
const pondId = partId("pond");
const tubId = partId("tub");

function besides(width: number, bedLevel: number): Section {
  const pond = courtyard.parts.get(pondId);
  if (pond?.kind !== "pond") throw new Error("the courtyard has a pond");
  const shore = pond.x + pond.width;
  const lake = { ...pond, x: shore - width, width, length: width, bedLevel };
  return { ...courtyard, parts: new Map(courtyard.parts).set(pondId, lake) };
}

test.each([
  [30, -3],
  [80, -3],
  [1000, -20],
  [9000, -90],
])("a lake of %d m, its bed at %d m", (width, bedLevel) => {
  const { powerCut, running } = assess(besides(width, bedLevel));
  const tub = powerCut?.vessels.get(tubId);

  expect(running.converged).toBe(true);
  expect(powerCut).toMatchObject({ settled: true, failedAt: null });
  expect(tub).toMatchObject({ verdict: "held", heldBy: "geometry" });
  // the return's invert, 0.46 − 0.057/2, and the columns that fall back on it
  expect(tub?.finalLevel).toBeGreaterThan(0.4315);
  expect(tub?.finalLevel).toBeLessThan(0.4325);
});
