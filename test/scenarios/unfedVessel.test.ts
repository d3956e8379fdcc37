/** Vents rated for the power cut by outside facts: a vessel that nothing feeds stands at its mouth's edge and sends
 * nothing past a vent; the air that a suction draws hangs on how heavy the water is. */
import { expect, it } from "vitest";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { waterDensity } from "../../hydraulics/formulas/water.ts";
import { rateVents } from "../../hydraulics/powerCut/rateVents.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { startLevelsOf } from "../../hydraulics/powerCut/startLevels.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { returnPipe, section, twoTubs, vent } from "../support/builders.ts";

/** With a breather just before the branch; the upper tub's overflow steps down to the lower one. */
const vented = (waterTemperature: number): Section =>
  section(
    [
      ...twoTubs(2.2),
      vent({ on: { pipe: "supply", at: 6.25 }, bore: 0.012, openEndZ: 2.5 }),
      returnPipe({
        id: "step",
        from: { part: "high", z: 1.5, mouth: "side" },
        to: { part: "vessel", x: 4.2, z: 0.8, mouth: "down" },
        route: [],
      }),
    ],
    { site: { waterTemperature } },
  );

const ratio = (of: Section, levels: ReadonlyMap<PartId, number>): number =>
  rateVents(of, levels, new Set()).get("vent" as PartId)?.airToWater ?? Number.NaN;

it("a vessel at the edge of its mouth, a hair over it, counts as uncovered in a vent's rating", () => {
  const drawing = vented(15);
  const levels = startLevelsOf(solveSteady(drawing));
  const edge = 1.2 - 0.034 / 2;
  const high = "high" as PartId;
  expect(levels.get(high)).toBeCloseTo(edge, 6);

  const at = (level: number) => ratio(drawing, new Map([...levels, [high, level]]));
  expect(ratio(drawing, levels)).toBeCloseTo(at(edge - 0.01), 9);
  expect(at(edge + 1e-9)).toBeCloseTo(at(edge - 0.01), 9);
  // Well covered it does send water past.
  expect(at(edge + 0.05)).toBeLessThan(0.95 * at(edge - 0.01));
});

it("no water falls back into it out of a leg that held none", () => {
  const drawing = vented(15);
  const state = solveSteady(drawing);
  expect(state.network.pipes.get("supply" as PartId)?.stretches.at(-1)?.link.Q).toBeLessThan(1e-9);
  const cut = simulatePowerCut(drawing, state);
  const high = cut.vessels.get("high" as PartId);

  expect(high?.finalLevel).toBeCloseTo(1.2 - 0.034 / 2, 3);
  expect(high?.litresOut).toBeGreaterThan(-0.1);
  // What stood in the riser and the top, up to the vent, falls back, and what stood in the branch.
  const perMetre = (Math.PI * 0.034 ** 2) / 4;
  const fallen = [...cut.columns.values()].reduce((sum, volume) => sum + volume, 0);
  expect(fallen).toBeGreaterThan(2.1 * perMetre);
  expect(fallen).toBeLessThan(8.5 * perMetre);
});

it("a vent draws air as the root of the water's density at the site's temperature", () => {
  // Hazen-Williams knows no viscosity, so that nothing else hangs on the temperature here.
  const [cold, warm] = [4, 32].map((temperature) => {
    const drawing = vented(temperature);
    return ratio(drawing, startLevelsOf(solveSteady(drawing)));
  }) as [number, number];
  expect(warm / cold).toBeCloseTo(Math.sqrt(waterDensity(32) / waterDensity(4)), 6);
  expect(warm / cold).toBeLessThan(0.998);
});
