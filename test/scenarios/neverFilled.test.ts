/** Lines that no pump has filled: water stands in them no higher than in the bodies at their ends, so that none falls
 * back out of them when the power fails. By hand, from levels and lengths alone. */
import { describe, expect, it } from "vitest";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { pipe, pond, pump, returnPipe, section, tubFedOverRim, valve, vent, vessel } from "../support/builders.ts";
import { readDrawing } from "./readDrawing.ts";

const perMetre = (Math.PI * 0.034 ** 2) / 4;
const waterLevel = 0.01;

/** m³ by body */
function fallen(drawing: Section): ReadonlyMap<PartId, number> {
  const state = solveSteady(drawing);
  expect(state.solved.converged).toBe(true);
  return simulatePowerCut(drawing, state).columns;
}

const into = (columns: ReadonlyMap<PartId, number>, body: string): number => columns.get(body as PartId) ?? 0;

/** Up to 0.9 m and over the tub's rim, in the air there. */
const overRim = (of: Parameters<typeof pump>[0]): Section =>
  section([...tubFedOverRim().filter(({ kind }) => kind !== "pump"), pump(of), returnPipe()]);

/** From a suction line with its mouth at a level, over a top into the base of the tub, with a vent on the top. */
const beside = (mouth: number): Section =>
  section([
    pond(),
    vessel(),
    pump({ in: undefined, z: 0.1 }),
    pipe({
      id: "suction",
      from: { part: "pond", x: 0.2, z: mouth, mouth: "down" },
      to: { part: "pump" },
      route: [[0.2, 0.1]],
    }),
    pipe(),
    vent({ on: { pipe: "supply", at: 3 } }),
    returnPipe(),
  ]);

describe("no water falls back out of a line that no pump has filled", () => {
  it.each([
    ["a pump that is off, its siphon long broken", readDrawing("traps/pump-off.json")],
    ["a pump that is off, its line over the rim", overRim({ speed: 0 })],
    ["a pump whose intake is in the air", overRim({ z: 0.3 })],
    ["a pump whose intake is in the air, its line under the tub's water", readDrawing("traps/pump-in-air.json")],
    ["a pump whose suction line ends over the water", beside(0.05)],
  ])("%s", (_, drawing) => {
    expect([...fallen(drawing).values()]).toEqual([]);
  });

  it("a tub that its siphon has emptied stays where that left it", () => {
    const drawing = readDrawing("traps/pump-off.json");
    const cut = simulatePowerCut(drawing, solveSteady(drawing));
    const tub = cut.vessels.get("tub" as PartId);

    // The side mouth's lowest point, 0.1 − 0.034/2.
    expect(tub?.finalLevel).toBeCloseTo(0.083, 5);
    expect(tub?.litresOut).toBeCloseTo(0, 4);
    expect(cut.events.map(({ code }) => code)).toEqual(["settled"]);
  });
});

describe("what a pump has filled falls back", () => {
  it("over the rim: up to the top, and down past it into the tub", () => {
    const columns = fallen(overRim({}));

    // The riser over the pond's water and the level top, whose lower foot is there; past it, the drop into the tub.
    expect(into(columns, "pond")).toBeCloseTo((0.9 - waterLevel + 3.4) * perMetre, 4);
    expect(into(columns, "vessel")).toBeCloseTo((0.9 - 0.72) * perMetre, 4);
  });

  it("out of a line whose suction mouth is covered", () => {
    expect(into(fallen(beside(-0.3)), "pond")).toBeGreaterThan(0.5 * perMetre);
  });

  it("up to a shut valve, and nothing out of the leg past it that ends in the air", () => {
    const parts = [...overRim({}).parts.values()];
    const columns = fallen(section([...parts, valve({ on: { pipe: "supply", at: 2.4 }, open: 0 })]));

    // The pump's intake at −0.5, so that 1.4 m of riser lead to the top and the valve sits 1 m along it.
    expect(into(columns, "pond")).toBeCloseTo((0.9 - waterLevel + 1) * perMetre, 4);
    expect(columns.has("vessel" as PartId)).toBe(false);
  });
});
