/** Past a place where air comes in freely no suction stands, whichever pipe the water takes from there (design notes,
 * section 7: "an ample vent on a falling leg takes away the suction of that leg"). */
import { expect, it } from "vitest";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { openEnd, pipe, pond, pump, returnPipe, section, vent, vessel } from "../support/builders.ts";

/** Over a top at 2 m; 1 m past the vent a branch falls to the tub and takes all the water. The main goes on to a vessel that
 * nothing feeds, which stands at the edge of its mouth: no air comes in there. */
const branched = (breather: Part | null): Section =>
  section([
    pond(),
    vessel({ media: [] }),
    vessel({ id: "high", x: 6, baseLevel: 1, rimLevel: 1.8, media: [] }),
    pump({
      curve: [
        [0, 4],
        [0.0008, 2.6],
        [0.0012, 0],
      ],
    }),
    pipe({
      to: { part: "high", z: 1.2, mouth: "side" },
      route: [
        [0.4, 2],
        [5.5, 2],
        [5.5, 1.2],
      ],
    }),
    pipe({
      id: "branch",
      from: { pipe: "supply", at: 6.1 },
      to: { part: "vessel", x: 4, z: 0.3, mouth: "down" },
      route: [[4, 2]],
    }),
    returnPipe(),
    ...(breather ? [breather] : []),
  ]);

/** The same way in one line, over a joint at the same place. */
const joined = (breather: Part | null): Section =>
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
