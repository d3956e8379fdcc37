/** Past a place where air comes in freely no suction stands, whichever pipe the water takes from there (design notes,
 * section 7: "an ample vent on a falling leg takes away the suction of that leg"). */
import { expect, it } from "vitest";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { openEnd, pipe, pump, section, tubFedOverRim, twoTubs, vent } from "../support/builders.ts";

/** 1 m past the vent the branch takes all the water; no air comes in where the main ends. */
const branched = (breather: Part): Section => section([...twoTubs(2), breather]);

/** The same way in one line, over a joint at the same place. */
const joined = (breather: Part): Section =>
  section([
    ...[...branched(breather).parts.values()].filter(({ id }) => id !== "supply" && id !== "branch"),
    pipe({ to: openEnd(4, 2), route: [[0.4, 2]] }),
    pipe({
      id: "branch",
      from: { pipe: "supply", at: 6.1 },
      to: { part: "vessel", x: 4, z: 0.3, mouth: "down" },
      route: [],
    }),
  ]);

const lowest = (of: Section): number => {
  const state = solveSteady(of);
  const running = readings(state, { range: new Map(), straight: new Map() });
  const branch = state.solved.converged ? running.pipes.get("branch" as PartId) : undefined;
  expect(branch?.flow).toBeGreaterThan(1e-4);
  return branch?.lowestPressureHead ?? Number.NaN;
};
const breather = (bore: number) => vent({ on: { pipe: "supply", at: 5.1 }, bore, openEndZ: 2.5 });

it("a branch past an ample vent stands under no suction", () => {
  expect(lowest(branched(breather(0.03)))).toBe(0);
});

it("nor does a pipe that carries the line on past it; with a pinhole it does", () => {
  expect(lowest(joined(breather(0.03)))).toBe(0);
  expect(lowest(joined(breather(0.001)))).toBeLessThan(-0.5);
});

/** A tub fed by a pump in the pond; another beside it draws from the tub's side, and could lift twice as much. */
const snatching = (times: number): Section =>
  section([
    ...tubFedOverRim(),
    pump({
      id: "beside",
      in: undefined,
      x: 5.5,
      z: 0.2,
      curve: [
        [0, 4 * times],
        [0.002, 3 * times],
        [0.003, 0],
      ],
    }),
    pipe({
      id: "suction",
      from: { part: "vessel", z: 0.3, mouth: "side" },
      to: { part: "beside" },
      route: [],
      bore: 0.045,
    }),
    pipe({
      id: "back",
      from: { part: "beside" },
      to: { part: "pond", x: 2.5, z: 0.1, mouth: "down" },
      route: [
        [5.5, 0.8],
        [2.5, 0.8],
      ],
    }),
  ]);

it.each([1, 3])(
  "a suction line that snatches air at its mouth stands under none, however strong its pump (%i ×)",
  (times) => {
    const state = solveSteady(snatching(times));
    const running = readings(state, { range: new Map(), straight: new Map() });
    expect(state.solved.converged && running.pumps.get("beside" as PartId)?.state).toBe("delivers");
    expect(state.network.pipes.get("suction" as PartId)?.mouthFrom?.state).toBe("edge");
    expect(running.pipes.get("suction" as PartId)?.lowestPressureHead).toBe(0);
    expect(running.pumps.get("beside" as PartId)?.lowestSuction).toBe(0);
  },
);
