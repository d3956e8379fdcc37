/** Start-up and restart: an empty vessel filled from the pond.
 * Levels and volumes by hand from the builders' drawing. */
import { expect, it } from "vitest";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { waterVolume } from "../../hydraulics/document/volumes.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { startUp } from "../../hydraulics/powerCut/startUp.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { loopedSupply, pipe, pond, pump, returnPipe, section, vessel } from "../support/builders.ts";

const started = (of: Section) => {
  const run = startUp(of);
  if (!run) throw new Error("the drawing did not converge");
  return run;
};
const pondOf = (run: ReturnType<typeof started>) => must(run.ponds.get("pond" as PartId));
const vesselOf = (run: ReturnType<typeof started>) => must(run.vessels.get("vessel" as PartId));
function must<T>(value: T | undefined): T {
  if (value === undefined) throw new Error("no such part");
  return value;
}
const withIntake = (z: number): Section => {
  const parts = new Map(loopedSupply().parts);
  parts.set("pump" as PartId, pump({ z }));
  return section([...parts.values()]);
};

it("the pond falls by what the vessel takes: its water over 6 m²", () => {
  const run = started(loopedSupply());
  const { startLevel, finalLevel, litresLent } = pondOf(run);
  const held = waterVolume(vessel(), vesselOf(run).finalLevel);

  expect(run.settled).toBe(true);
  expect(run.lostToGround).toBe(0);
  expect(startLevel).toBe(0.01);
  expect(startLevel - finalLevel).toBeCloseTo(held / 6, 5);
  expect(litresLent).toBeCloseTo(1000 * held, 1);
  expect(run.pumpsDry.size).toBe(0);
});

it("the return runs when the vessel is full to its invert, 0.6 less half of 67.8 mm", () => {
  const run = started(loopedSupply());
  const time = must(vesselOf(run).timeToReturn ?? undefined);
  const needed = waterVolume(vessel(), 0.6 - 0.0339);
  const flow = must(run.history.flows.get("supply" as PartId));

  // While it fills, the pump brings between its least and its greatest flow of that time.
  expect(time).toBeGreaterThan(needed / Math.max(...flow));
  expect(time).toBeLessThan((1.05 * needed) / Math.min(...flow));
});

it("a prism fed over its rim out of a lake is full to its outlet's invert after V/Q", () => {
  // Nothing that the pump feels changes while the vessel fills: the flow is constant, and the time is volume over flow.
  const tub = vessel({ plan: { shape: "rectangle", width: 0.7, length: 0.5 }, media: [] });
  const over = pipe({
    to: { part: "vessel", x: 3.6, z: 0.9, mouth: "down" },
    route: [
      [0.4, 1],
      [3.6, 1],
    ],
    bore: 0.034,
  });
  const run = started(section([pond({ width: 400, length: 400 }), tub, pump(), over, returnPipe()]));
  const volume = 0.7 * 0.5 * (0.6 - 0.0339);
  const flow = must(run.history.flows.get("supply" as PartId)?.[0]);

  expect(vesselOf(run).timeToReturn).toBeCloseTo(volume / flow, 1);
});

it("it ends in the running state that the lower pond has", () => {
  const run = started(loopedSupply());
  const parts = new Map(loopedSupply().parts);
  parts.set("pond" as PartId, pond({ waterLevel: pondOf(run).finalLevel }));
  const steady = solveSteady(section([...parts.values()]));
  const level = steady.system.head[must(steady.network.bodies.get("vessel" as PartId)).surface];

  expect(vesselOf(run).finalLevel).toBeCloseTo(level as number, 4);
});

it("an intake 20 mm under the water is bare before the vessel is full; one half a metre under is not", () => {
  // The vessel takes 0.19 m³ before its return runs: 32 mm of the pond.
  const bare = started(withIntake(-0.01));

  expect(bare.pumpsDry.get("pump" as PartId)).toBeGreaterThan(0);
  expect(vesselOf(bare).timeToReturn).toBeNull();
  expect(bare.events.some(({ code }) => code === "pumpDry")).toBe(true);
});

it("a restart after the cut lends little: the vessel is still full to its outlet", () => {
  const of = loopedSupply();
  const state = solveSteady(of);
  const cut = simulatePowerCut(of, state);
  const levels = new Map<PartId, number>();
  for (const [id, { finalLevel }] of [...cut.vessels, ...cut.ponds]) levels.set(id, finalLevel);

  const again = startUp(of, { state, levels });

  expect(pondOf(must(again ?? undefined)).litresLent).toBeLessThan(0.2 * pondOf(started(of)).litresLent);
});

it("a pump that is off starts nothing", () => {
  const parts = new Map(loopedSupply().parts);
  parts.set("pump" as PartId, pump({ speed: 0 }));
  const run = started(section([...parts.values()]));

  expect(vesselOf(run).finalLevel).toBeCloseTo(0, 9);
  expect(pondOf(run).litresLent).toBeCloseTo(0, 9);
});
