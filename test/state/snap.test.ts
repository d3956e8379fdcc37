import { describe, expect, it } from "vitest";
import { drag } from "../../editor/canvas/drag.ts";
import { dragFreshEnd, dragTool } from "../../editor/canvas/dragNew.ts";
import { levelMarks, snapAxis, snapStep } from "../../editor/canvas/snap.ts";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
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

describe("new parts snap as parts that are dragged do", () => {
  const wish = (x: number, z: number, loose = false) => ({ at: [x, z], grid, reach: 0.05, loose }) as const;

  it("the end of a pipe that is pulled comes to the level of a rim, and says so", () => {
    const { changed, guides, figure } = dragFreshEnd(yard(), [6, 0.3], wish(6.7, 0.787));

    expect(changed.ok && part(changed.section, "pipe", "pipe").to).toEqual({ open: true, x: 6.7, z: 0.8 });
    expect(guides).toEqual([{ axis: "z", value: 0.8, name: "rim of Trough" }]);
    expect(figure).toEqual({ kind: "level", value: 0.8, at: [6.7, 0.8] });
  });

  it("it comes square to its own first end", () => {
    const { changed, guides } = dragFreshEnd(yard(), [6.004, 1.504], wish(6.02, 2.2));

    expect(changed.ok && part(changed.section, "pipe", "pipe").to).toMatchObject({ x: 6.004, z: 2.2 });
    expect(guides).toEqual([{ axis: "x", value: 6.004, name: "its first end" }]);
  });

  it("with the key held down it goes straight to where the hand is", () => {
    const { changed, guides } = dragFreshEnd(yard(), [6, 0.3], wish(6.7, 0.787, true));

    expect(changed.ok && part(changed.section, "pipe", "pipe").to).toEqual({ open: true, x: 6.7, z: 0.787 });
    expect(guides).toEqual([]);
  });

  it("before it is pressed, its first end comes to a level and tells it", () => {
    const { changed, guides, figure } = dragFreshEnd(yard(), null, wish(6.7, 0.787));

    expect(changed).toMatchObject({ ok: true, edit: null });
    expect(guides).toMatchObject([{ name: "rim of Trough" }]);
    expect(figure).toMatchObject({ value: 0.8 });
  });

  it("no guide is shown where a pump catches the end at another level", () => {
    const section = yard();
    const { in: _, ...dry } = { ...part(section, "lift", "pump"), x: 6, z: 0.77 };
    const beside = { ...section, parts: new Map(section.parts).set(id("lift"), dry) };
    const { changed, guides, figure } = dragFreshEnd(beside, [2, 1.5], wish(6.03, 0.79));

    expect(changed.ok && part(changed.section, "pipe", "pipe").to).toEqual({ part: "lift" });
    expect(guides).toEqual([]);
    expect(figure).toMatchObject({ value: 0.77 });
  });

  it("a vessel comes to the levels and edges of others, told by its base", () => {
    const { changed, guides, figure } = dragTool(yard(), "vessel", wish(5.2 + 0.45 + 0.02, 0.8 + 0.4 + 0.013));

    expect(changed.ok && part(changed.section, "vessel", "vessel")).toMatchObject({ x: 5.2, baseLevel: 0.8 });
    expect(guides).toEqual([
      { axis: "x", value: 5.2, name: "edge of Trough" },
      { axis: "z", value: 0.8, name: "rim of Trough" },
    ]);
    expect(figure).toMatchObject({ kind: "level", value: 0.8 });
  });

  it("a pond that the ground holds at its level is not said to be level with what the hand is near", () => {
    const { changed, guides } = dragTool(yard(), "pond", wish(9, 0.12));

    expect(changed.ok && part(changed.section, "pond", "pond").rimLevel).toBe(0.05);
    expect(guides.map(({ value }) => value)).toEqual([0.05]);
  });

  it("a valve on an upright pipe comes to a level of another part, and to no round step", () => {
    const on = dragTool(yard(), "valve", wish(3.7, 0.787));
    const off = dragTool(yard(), "valve", wish(3.7, 0.5437));

    expect(on.guides).toMatchObject([{ axis: "z", value: 0.8, name: "rim of Trough" }]);
    expect(on.figure?.value).toBeCloseTo(0.8, 9);
    expect(off.figure?.value).toBeCloseTo(0.544, 9);
  });

  it("a valve stays on the pipe that the hand means, whatever lies at the level it comes to", () => {
    const crossed = { x: 3.69, z: 0.645, loose: false };
    const put = dragTool(yard(), "valve", wish(crossed.x, crossed.z));
    const start = {
      section: yard(),
      grip: { of: "device", part: id("flap") },
      selection: new Set([id("flap")]),
    } as const;
    const slid = drag({ ...start, at: [0.4, 0.05] }, wish(crossed.x, crossed.z));
    const onto = put.changed.ok ? put.changed.section : yard();
    const over = drag(
      { section: onto, grip: { of: "device", part: id("valve") }, selection: new Set([id("valve")]), at: [3.7, 0.645] },
      wish(3.69, 0.617),
    );

    expect(put.changed.ok && part(put.changed.section, "valve", "valve").on.pipe).toBe("supply");
    expect(slid.changed.ok && part(slid.changed.section, "flap", "checkValve").on.pipe).toBe("supply");
    expect(over.changed.ok && part(over.changed.section, "valve", "valve").on.pipe).toBe("supply");
  });

  it("what can not be set down there is refused, with no guide", () => {
    const { changed, guides, figure } = dragTool(yard(), "spillway", wish(20, 0.8));

    expect(changed.ok).toBe(false);
    expect(guides).toEqual([]);
    expect(figure).toBeNull();
  });
});

describe("in fractions of an inch nothing is lost", () => {
  const inch = 0.0254;
  const inches = { step: inch / 2, reach: 0.001 };

  it("half an inch twenty-four times is a foot, and a vessel keeps its height", () => {
    let section = yard();
    for (let k = 0; k < 24; k++) {
      const moved = moveParts(section, new Set([id("trough")]), 0, inch / 2);
      if (!moved.ok) throw new Error(moved.why);
      section = moved.section;
    }

    expect(part(section, "trough", "vessel").baseLevel).toBe(0.3048);
    expect(part(section, "trough", "vessel").rimLevel).toBe(1.1048);
  });

  it("a dragged vessel stands on a half inch", () => {
    const start = {
      section: yard(),
      grip: { of: "part", part: id("trough") },
      selection: new Set([id("trough")]),
    } as const;
    const { changed } = drag({ ...start, at: [4.5, 0.4] }, { at: [4.5, 0.6], grid: inches, reach: 0.05, loose: false });

    const base = changed.ok ? part(changed.section, "trough", "vessel").baseLevel : Number.NaN;
    expect(base / (inch / 2)).toBeCloseTo(Math.round(base / (inch / 2)), 6);
    expect(base).toBeCloseTo(0.2, 1);
  });

  it("a pipe that is pulled at right angles has corners level with its ends", () => {
    const wish = { at: [7, 47 * (inch / 2)], grid: inches, reach: 0.05, loose: false } as const;
    const { changed } = dragFreshEnd(yard(), [6, 1.5 * inch], wish);

    const pipe = changed.ok ? part(changed.section, "pipe", "pipe") : null;
    expect(pipe?.to).toEqual({ open: true, x: 6.9977, z: 0.5969 });
    expect(pipe?.route).toEqual([[6, 0.5969]]);
  });

  it("a hand that lets go of snapping sets down to the millimetre", () => {
    const start = {
      section: yard(),
      grip: { of: "part", part: id("trough") },
      selection: new Set([id("trough")]),
    } as const;
    const { changed } = drag(
      { ...start, at: [4.5, 0.4] },
      { at: [4.61234, 0.51234], grid: inches, reach: 0.05, loose: true },
    );

    expect(changed.ok && part(changed.section, "trough", "vessel")).toMatchObject({ x: 4.112, baseLevel: 0.112 });
  });

  it("several parts that a pipe leads go by round steps", () => {
    const both = new Set([id("supply"), id("lift")]);
    const start = { section: yard(), grip: { of: "part", part: id("supply") }, selection: both } as const;
    const { changed } = drag({ ...start, at: [2, 0.9] }, { at: [2.1234, 0.9234], grid, reach: 0.05, loose: false });

    expect(changed.ok && part(changed.section, "lift", "pump")).toMatchObject({ x: 0.52, z: -0.53 });
  });
});
