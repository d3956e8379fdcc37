/** A credited bare valve in a pumped line that feeds two vessels, while the pump has drawn its pond down to the intake
 * and half of the return is blocked: the valve opens at its tee, so the water falls on past it and none comes out,
 * y = H − V²/2g = z_tee = z_end (design notes, section 7). Each step hangs on the last digits of that velocity head. */
import { expect, it } from "vitest";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { playFault, sectionInFault } from "../../hydraulics/faults/survey.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { startLevelsOf } from "../../hydraulics/powerCut/startLevels.ts";
import { runWithPumps } from "../../hydraulics/powerCut/withPumps.ts";
import type { Link } from "../../hydraulics/solver/links/link.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { pipe, pond, pump, section, vent, vessel, yard } from "../support/builders.ts";

const bore = 0.0514;
const terraces = section([
  pond({ width: 4, length: 3, bedLevel: -1, rimLevel: 0.15, waterLevel: 0 }),
  vessel({
    id: "low",
    x: 5,
    plan: { shape: "round", diameter: 0.6 },
    baseLevel: 0.25,
    rimLevel: 1.09,
    media: [
      { depth: 0.08, grain: 0.006, porosity: 0.41 },
      { depth: 0.24, grain: 0.01, porosity: 0.45 },
    ],
    clogging: 20,
  }),
  vessel({
    id: "high",
    x: 7.5,
    plan: { shape: "round", diameter: 1.26 },
    baseLevel: 0.56,
    rimLevel: 1.47,
    media: [
      { depth: 0.25, grain: 0.02, porosity: 0.43 },
      { depth: 0.12, grain: 0.006, porosity: 0.45 },
      { depth: 0.16, grain: 0.006, porosity: 0.37 },
    ],
  }),
  pump({
    x: 0.5,
    z: -0.6,
    outletBore: bore,
    curve: [
      [0, 6.877],
      [0.004, 0],
    ],
    watts: 60,
  }),
  pipe({
    to: { part: "high", z: 0.6657, mouth: "side" },
    route: [
      [0.5, 2.17],
      [7.3, 2.17],
      [7.3, 0.6657],
    ],
    bore,
    bends: "none",
  }),
  vent({ on: { pipe: "supply", at: 2.77 }, bore: 0.02, open: 0.3, openEndZ: 2.17 }),
  pipe({
    id: "branch",
    from: { pipe: "supply", at: 3.77 },
    to: { part: "low", z: 0.418, mouth: "side" },
    route: [
      [4.8, 2.17],
      [4.8, 0.502],
    ],
    bore,
    material: "hose",
    extraLength: 0.5,
  }),
  pipe({
    id: "step",
    from: { part: "high", z: 1.161, mouth: "side" },
    to: { part: "low", z: 0.376, mouth: "side" },
    route: [
      [6.9, 1.141],
      [6.9, 0.376],
    ],
    bore,
    material: "corrugated",
    extraLength: 0.5,
    fittings: [{ type: "elbow45", count: 3 }],
  }),
  pipe({
    id: "return",
    from: { part: "low", z: 0.851, mouth: "side" },
    to: { part: "pond", z: 0, mouth: "side" },
    route: [
      [4.7, 0.801],
      [4.7, 0.1],
    ],
    bore,
    material: "galvanised",
    fittings: [
      { type: "teeBranch", count: 1 },
      { type: "swept90", count: 1 },
    ],
  }),
]);

it("is followed to rest in a few hundred steps, and lets no water out", () => {
  const state = solveSteady(terraces);
  const fault = playFault(
    terraces,
    { state, powerCut: simulatePowerCut(terraces, state) },
    { fault: "returnHalfBlocked", part: "return" as PartId },
  );
  expect(fault?.failedAt).toBeNull();
  const { run, network } = runWithPumps(
    sectionInFault(terraces, fault as NonNullable<typeof fault>),
    startLevelsOf(state),
    {
      state,
      until: 24 * 3600,
      tolerance: 2e-3,
    },
  );

  expect(run.failedAt).toBeNull();
  expect(run.steps).toBeLessThan(500);
  expect(run.steps).toBeGreaterThan(20);
  const spill = network.vents.get("vent" as PartId)?.spill as Link;
  expect(run.through[network.links.indexOf(spill)]).toBeLessThan(1e-9);
});

it("says that no siphon can form only where no water is drawn another way", () => {
  const said = (of: Section): string => {
    const events = simulatePowerCut(of, solveSteady(of)).events;
    return events.find(({ code, part }) => code === "siphonBroken" && part === "vent")?.text ?? "";
  };

  // Over the branch the higher vessel siphons into the lower one; the vent lies off that way.
  expect(simulatePowerCut(terraces, solveSteady(terraces)).vessels.get("high" as PartId)?.verdict).toBe("drains");
  expect(said(terraces)).toMatch(/lets air in at \+2\.170: nothing is drawn past it/);
  expect(said(yard())).toMatch(/lets air in at .*: no siphon can form/);
});
