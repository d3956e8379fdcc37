import { describe, expect, it } from "vitest";
import { drag } from "../../editor/canvas/drag.ts";
import { levelMarks, snapAxis, snapStep } from "../../editor/canvas/snap.ts";
import { id, part, yard } from "./yard.ts";

const grid = { step: 0.01, reach: 0.03 };

describe("snapping", () => {
  it("a level near another part's comes to it and names it", () => {
    const marks = levelMarks(yard(), new Set([id("trough")]));

    expect(snapAxis("z", [0.04], marks, grid)).toMatchObject({ guide: { value: 0.05, name: "rim of Basin" } });
  });

  it("away from every mark it comes to a round step, with no guide", () => {
    const { by, guide } = snapAxis("z", [3.1234], levelMarks(yard(), new Set()), grid);

    expect(3.1234 + by).toBeCloseTo(3.12, 9);
    expect(guide).toBeNull();
  });

  it("parts that move along are no marks", () => {
    const names = levelMarks(yard(), new Set([id("basin")])).map((mark) => mark.name);

    expect(names).not.toContain("Supply");
    expect(names).toContain("Purge");
  });

  it.each([
    ["metric", 200, 0.05],
    ["metric", 3000, 0.001],
    ["us", 400, 0.0127],
  ] as const)("the step at %s, %d px a metre, is %d m", (units, scale, step) => {
    expect(snapStep(scale, units)).toBeCloseTo(step, 9);
  });

  it("a bend nearly square to its neighbours is made square, and left alone where the hand lets go of it", () => {
    const section = yard();
    const start = {
      section,
      grip: { of: "bend", part: id("supply"), index: 1 },
      selection: new Set([id("supply")]),
      at: [3.7, 0.9],
    } as const;
    const squared = drag(start, { at: [3.5, 0.912], grid, reach: 0.05, loose: false });
    const free = drag(start, { at: [3.5, 0.912], grid, reach: 0.05, loose: true });

    expect(squared.changed.ok && part(squared.changed.section, "supply", "pipe").route?.[1]?.[1]).toBe(0.9);
    expect(free.changed.ok && part(free.changed.section, "supply", "pipe").route?.[1]?.[1]).toBe(0.912);
  });
});
