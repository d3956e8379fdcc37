/** A vent on a gravity pipe (design notes, section 7): one in which water stands, or that sees none, changes nothing;
 * its tee is no vertex of the route. One whose open end lies under the water spills. */
import { expect, it } from "vitest";
import { lineLength, pipeLine } from "../../hydraulics/document/geometry.ts";
import type { PartId, Pipe, Section, Vent } from "../../hydraulics/document/section.ts";
import { pipe, returnPipe, section, tubFedOverRim, vent } from "../support/builders.ts";
import { assessed, judgeAfter } from "./assessed.ts";

/** An overflow drawn from below over an arch; its first bend is 0.3 m from the mouth, its second 0.25 m on. */
const arch = (bore: number) =>
  returnPipe({
    from: { part: "vessel", z: 0.3, mouth: "side" },
    to: { part: "pond", x: 2.4, z: 0.1, mouth: "down" },
    route: [
      [3.3, 0.3],
      [3.3, 0.55],
      [2.4, 0.54],
    ],
    bore,
  });

const drawing = (bore: number, breather: Vent | null, more: readonly Pipe[] = []): Section =>
  section([...tubFedOverRim(), arch(bore), ...more, ...(breather ? [breather] : [])]);

const settled = (of: Section) => {
  const all = assessed(of);
  if (!all) throw new Error("it did not converge");
  const { running, cut } = all;
  const tub = running.vessels.get("vessel" as PartId);
  const back = running.pipes.get("return" as PartId);
  return {
    level: tub?.level ?? Number.NaN,
    capacity: tub?.returnCapacity ?? Number.NaN,
    resting: tub?.restingLevel,
    control: [tub?.control, back?.control],
    final: cut.vessels.get("vessel" as PartId)?.finalLevel ?? Number.NaN,
    judged: judgeAfter(of, all).vessels.get("vessel" as PartId)?.finalLevel,
    spill: running.vents.get("vent" as PartId)?.spill,
  };
};

const places = [0.1, 0.3, 0.31, 0.42, 0.55, 0.56, 1, 1.4501, 1.6] as const;
const cases = [0.05, 0.0678].flatMap((bore) => places.map((at) => [bore, at] as const));

it.each(cases)(
  "a pinhole in a return of %f m, %f m along it, changes neither its level nor its capacity",
  (bore, at) => {
    const bare = settled(drawing(bore, null));
    const vented = settled(drawing(bore, vent({ on: { pipe: "return", at }, bore: 0.004, openEndZ: 0.8 })));

    expect(vented.spill).toBe(0);
    expect(vented.level).toBeCloseTo(bare.level, 9);
    expect(vented.capacity).toBeCloseTo(bare.capacity, 10);
    expect(vented.control).toEqual(bare.control);
    expect(vented.resting).toBe(bare.resting);
    expect(vented.judged).toBe(bare.judged);
  },
);

it("a tee of another pipe at the vent's place is a vertex with the vent as it is without", () => {
  const branch = pipe({
    id: "branch",
    from: { part: "vessel", z: 0.7, mouth: "side" },
    to: { pipe: "return", at: 0.6 },
    route: [],
    bore: 0.03,
  });
  const bare = settled(drawing(0.05, null, [branch]));
  const vented = settled(
    drawing(0.05, vent({ on: { pipe: "return", at: 0.6 }, bore: 0.004, openEndZ: 0.8 }), [branch]),
  );
  const without = settled(drawing(0.05, null));

  expect(vented.level).toBeCloseTo(bare.level, 9);
  expect(bare.level).toBeGreaterThan(without.level + 1e-4);
});

it("one whose open end lies under the water over the rising leg spills what its passage lets out there", () => {
  const spilling = settled(drawing(0.04, vent({ on: { pipe: "return", at: 0.2 }, bore: 0.006, openEndZ: 0.32 })));
  const bare = settled(drawing(0.04, null));

  expect(spilling.spill).toBeGreaterThan(1e-5);
  expect(spilling.level).toBeLessThan(bare.level);
});

it("the returns' lines have the lengths that the places above take for granted", () => {
  const of = drawing(0.05, null);
  const line = pipeLine(of, of.parts.get("return" as PartId) as Pipe);
  expect(lineLength(line.slice(0, 2))).toBeCloseTo(0.3, 9);
  expect(lineLength(line.slice(0, 3))).toBeCloseTo(0.55, 9);
});
