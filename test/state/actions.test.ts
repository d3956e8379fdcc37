import { describe, expect, it } from "vitest";
import { addBend } from "../../editor/state/actions/addBend.ts";
import { alignParts } from "../../editor/state/actions/alignParts.ts";
import { copyParts, duplicateParts } from "../../editor/state/actions/copyParts.ts";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import { movePipeBend } from "../../editor/state/actions/movePipeBend.ts";
import { movePipeEnd } from "../../editor/state/actions/movePipeEnd.ts";
import { movePipeSegment } from "../../editor/state/actions/movePipeSegment.ts";
import { pasteParts } from "../../editor/state/actions/pasteParts.ts";
import { placeDevice } from "../../editor/state/actions/placeDevice.ts";
import { placePart } from "../../editor/state/actions/placePart.ts";
import { placePipe } from "../../editor/state/actions/placePipe.ts";
import { placeSpillway } from "../../editor/state/actions/placeSpillway.ts";
import { pullVentEnd } from "../../editor/state/actions/pullVentEnd.ts";
import { removeBend } from "../../editor/state/actions/removeBend.ts";
import { removeParts } from "../../editor/state/actions/removeParts.ts";
import { replaceSection } from "../../editor/state/actions/replaceSection.ts";
import { resizeBody } from "../../editor/state/actions/resizeBody.ts";
import { setField, setSite, setTitle } from "../../editor/state/actions/setField.ts";
import { setMediaBoundary } from "../../editor/state/actions/setMediaBoundary.ts";
import { slideDevice } from "../../editor/state/actions/slideDevice.ts";
import { emptySection } from "../../editor/state/emptySection.ts";
import { joinedTo, lineLength, pipeLine, type Section } from "../../hydraulics/index.ts";
import { checkAction, checkRefused } from "./checkAction.ts";
import { id, part, yard } from "./yard.ts";

const reach = 0.1;
const only = (...names: string[]) => new Set(names.map(id));
const line = (section: Section, name: string) => pipeLine(section, part(section, name, "pipe"));

describe("setting parts down", () => {
  it.each(["pond", "vessel", "pump", "note"] as const)("a %s from the stencil stands on the sheet", (kind) => {
    const after = checkAction(emptySection, placePart(emptySection, kind, [1, -0.1]));

    expect([...after.parts.values()].map((p) => p.kind)).toEqual([kind]);
  });

  it("a pump dropped in the water draws from that pond", () => {
    const before = yard();
    const after = checkAction(before, placePart(before, "pump", [1.5, -0.4]));

    expect(part(after, "pump", "pump").in).toBe("basin");
  });

  it("a second pond on a bank takes its rim from where it is dropped", () => {
    const before = yard();
    const after = checkAction(before, placePart(before, "pond", [-4, 1]));

    expect(part(after, "pond", "pond").rimLevel).toBe(1);
  });

  it.each(["valve", "checkValve", "vent"] as const)("a %s sits on the pipe it is dropped on", (kind) => {
    const before = yard();
    const after = checkAction(before, placeDevice(before, kind, id("return"), 0.5));

    expect([...after.parts.values()].at(-1)).toMatchObject({ kind, on: { pipe: "return", at: 0.5 } });
  });

  it("two check valves never share a place", () => {
    const before = yard();
    const after = checkAction(before, placeDevice(before, "checkValve", id("supply"), 0.6));

    expect(part(after, "check-valve", "checkValve").on.at).not.toBe(0.6);
  });

  it("a valve dropped on a pond is refused", () => {
    const why = checkRefused(placeDevice(yard(), "valve", id("basin"), 0));

    expect(why).toContain("pipe");
  });

  it("a spillway falls into the pond beside and below", () => {
    const before = yard();
    const after = checkAction(before, placeSpillway(before, [4.02, 0.75]));

    expect(part(after, "spillway", "spillway")).toMatchObject({ from: "trough", to: "basin" });
  });

  it("a spillway in the open ground is refused", () => {
    checkRefused(placeSpillway(yard(), [20, 3]));
  });
});

describe("pipes", () => {
  it("a pipe pulled from a pump to a vessel's wall rises over the pond's rim and runs at right angles", () => {
    const before = checkAction(yard(), removeParts(yard(), only("supply")));
    const after = checkAction(before, placePipe(before, { from: [0.4, -0.55], to: [4.0, 0.1], reach }));

    const pipe = part(after, "pipe", "pipe");
    expect(pipe.from).toEqual({ part: "lift" });
    expect(pipe.to).toEqual({ part: "trough", z: 0.1, mouth: "side" });
    const points = pipeLine(after, pipe);
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1], points[i]] as [readonly [number, number], readonly [number, number]];
      expect(Math.min(Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1]))).toBeLessThan(1e-9);
    }
    expect(Math.max(...points.map((p) => p[1]))).toBeGreaterThan(0.05);
  });

  it("a return pulled from a vessel's wall to the pond falls on its way", () => {
    const before = checkAction(yard(), removeParts(yard(), only("return")));
    const after = checkAction(before, placePipe(before, { from: [4.0, 0.6], to: [2.5, 0.1], reach }));

    const points = pipeLine(after, part(after, "pipe", "pipe"));
    expect(points[1]?.[1]).toBeLessThan(0.6);
    expect(part(after, "pipe", "pipe").to).toMatchObject({ part: "basin", mouth: "down" });
  });

  it("a straight pipe has no bends", () => {
    const before = yard();
    const after = checkAction(before, placePipe(before, { from: [5.2, 0.4], to: [7, 0.2], reach, straight: true }));

    expect(part(after, "pipe", "pipe").route ?? []).toEqual([]);
  });

  it("a pipe of no length is refused", () => {
    checkRefused(placePipe(yard(), { from: [8, 1], to: [8, 1], reach }));
  });

  it("an end dropped on another pipe becomes a tee", () => {
    const before = yard();
    const after = checkAction(before, movePipeEnd(before, id("side-arm"), "to", { at: [3.0, 0.6], reach }));

    expect(part(after, "side-arm", "pipe").to).toMatchObject({ pipe: "return" });
  });

  it("an end dropped on another's open end carries it on, and still does when that end is moved", () => {
    const before = yard();
    const joined = checkAction(
      before,
      placePipe(before, { from: [2, 0.5], to: [1.2, 0.4], reach: 0.02, straight: true }),
    );
    const arm = lineLength(line(joined, "side-arm"));
    expect(part(joined, "pipe", "pipe").from).toEqual({ pipe: "side-arm", at: arm });

    const after = checkAction(
      joined,
      movePipeEnd(joined, id("side-arm"), "to", { at: [1.9311, 0.4177], reach: 0.001 }),
    );
    expect(lineLength(line(after, "side-arm"))).not.toBeCloseTo(arm, 3);
    expect(part(after, "pipe", "pipe").from).toEqual({ pipe: "side-arm", at: lineLength(line(after, "side-arm")) });
    expect(joinedTo(after, { pipe: id("side-arm"), side: "to" })).toEqual([{ pipe: "pipe", side: "from" }]);
  });

  it("an end pulled off into the air is open there", () => {
    const before = yard();
    const after = checkAction(before, movePipeEnd(before, id("supply"), "to", { at: [3.2, 1.6], reach }));

    expect(part(after, "supply", "pipe").to).toEqual({ open: true, x: 3.2, z: 1.6 });
  });

  it("a bend moves and the line follows", () => {
    const before = yard();
    const after = checkAction(before, movePipeBend(before, id("supply"), 1, [3.5, 1.0]));

    expect(part(after, "supply", "pipe").route?.[1]).toEqual([3.5, 1]);
  });

  it("a shorter line takes its breather along", () => {
    const before = yard();
    const moved = checkAction(before, placeDevice(before, "vent", id("return"), 1.9));
    const after = checkAction(moved, movePipeEnd(moved, id("return"), "to", { at: [3.6, 0.5], reach }));

    const vent = part(after, "breather-2", "vent");
    expect(vent.on.at).toBeLessThan(1.9);
  });

  it("a stretch shifts between its neighbours", () => {
    const before = yard();
    const after = checkAction(before, movePipeSegment(before, id("supply"), 1, 0, 0.2));

    expect(part(after, "supply", "pipe").route).toEqual([
      [0.4, 1.1],
      [3.7, 1.1],
      [3.7, 0.1],
    ]);
  });

  it("a breather stays on its stretch when that is raised, and its riser keeps its length", () => {
    const before = yard();
    const after = checkAction(before, movePipeSegment(before, id("supply"), 1, 0, 0.2));

    const was = part(before, "breather", "vent");
    const vent = part(after, "breather", "vent");
    expect(vent.on.at).toBeCloseTo(was.on.at + 0.2, 6);
    expect(vent.openEndZ).toBeCloseTo(1.3, 6);
    expect(part(after, "side-arm", "pipe").from).toMatchObject({ pipe: "supply", at: 3.2 });
  });

  it("a chain of tees survives the loss of the vessel at its root", () => {
    const start = yard();
    const chained = checkAction(start, placePipe(start, { from: [2, 0.55], to: [1, 0.3], reach }));
    expect(part(chained, "pipe", "pipe").from).toMatchObject({ pipe: "side-arm" });
    const before = checkAction(chained, placeDevice(chained, "valve", id("pipe"), 0.1));
    const after = checkAction(before, removeParts(before, only("trough", "lift", "basin")));

    expect(part(after, "pipe", "pipe").from).toMatchObject({ pipe: "side-arm" });
  });

  it("an end that is let go on its own pipe, or on one that tees into it, is refused: it would look joined", () => {
    const before = yard();
    const onItself = movePipeEnd(before, id("supply"), "to", { at: [1.5, 0.91], reach });
    const onItsTee = movePipeEnd(before, id("supply"), "to", { at: [2, 0.55], reach });
    const beside = checkAction(before, movePipeEnd(before, id("supply"), "to", { at: [3.7, 0.4], reach }));

    expect(checkRefused(onItself)).toBe("Supply can not end in itself.");
    expect(checkRefused(onItsTee)).toMatch(/^Supply can not end in Side arm, which hangs on it/);
    expect(part(beside, "supply", "pipe").to).toMatchObject({ open: true });
  });

  it("a stretch at an opening takes it along its wall", () => {
    const before = yard();
    const after = checkAction(before, movePipeSegment(before, id("return"), 0, 0, 0.1));

    expect(line(after, "return")).toEqual([
      [4, 0.72],
      [2.6, 0.7],
      [2.6, 0.1],
    ]);
  });

  it("a stretch that is pulled over the rim gets a bend at its opening, and the opening stays", () => {
    const before = yard();
    const after = checkAction(before, movePipeSegment(before, id("return"), 0, 0, 0.3));

    expect(line(after, "return")).toEqual([
      [4, 0.62],
      [4, 0.92],
      [2.6, 0.9],
      [2.6, 0.1],
    ]);
  });

  it("a valve rides with its stretch where that gets a bend: pulled over the rim, or aside from a pump", () => {
    const before = yard();
    const over = checkAction(before, movePipeSegment(before, id("purge"), 0, 0, 1));
    const aside = checkAction(before, movePipeSegment(before, id("supply"), 0, 3, 0));

    expect(part(over, "tap", "valve").on.at).toBeCloseTo(1 + part(before, "tap", "valve").on.at, 9);
    expect(part(aside, "flap", "checkValve").on.at).toBeCloseTo(3 + part(before, "flap", "checkValve").on.at, 9);
  });

  it("half an inch twenty-four times is a foot along a pipe too, and a breather stays over its place as its pipe rises", () => {
    let slid = yard();
    let raised = yard();
    for (let k = 0; k < 24; k++) {
      slid = checkAction(
        slid,
        slideDevice(slid, id("breather"), id("supply"), part(slid, "breather", "vent").on.at - 0.0127),
      );
      raised = checkAction(raised, movePipeSegment(raised, id("supply"), 1, 0, 0.0127));
    }

    expect(part(slid, "breather", "vent")).toMatchObject({ on: { at: 4.5 - 0.3048 }, openEndZ: 1.1 });
    expect(part(raised, "breather", "vent").on.at).toBeCloseTo(4.5 + 0.3048, 9);
  });

  it("a stretch that hangs over a pond goes sideways with its mouth, one in the air with its end", () => {
    const before = yard();
    const hung = checkAction(before, movePipeSegment(before, id("return"), 1, -0.2, 0));
    const poured = checkAction(before, movePipeSegment(before, id("purge"), 1, 0.1, 0.1));

    expect(line(hung, "return").slice(-2)).toEqual([
      [2.4, 0.6],
      [2.4, 0.1],
    ]);
    expect(part(poured, "purge", "pipe").to).toEqual({ open: true, x: 6.1, z: 0.05 });
    expect(line(poured, "purge").length).toBe(line(before, "purge").length);
  });

  it("a stretch at a pump, at a tee and at a joint gets a bend there, and the end stays", () => {
    const before = yard();
    const atPump = checkAction(before, movePipeSegment(before, id("supply"), 0, 0.2, 0));
    const atTee = checkAction(before, movePipeSegment(before, id("side-arm"), 0, 0.1, 0.1));
    const joined = checkAction(before, placePipe(before, { from: [6, -0.05], to: [7, -0.05], reach }));
    const atJoint = checkAction(joined, movePipeSegment(joined, id("purge"), 1, 0.1, 0.1));

    expect(line(atPump, "supply").slice(0, 3)).toEqual([
      [0.4, -0.55],
      [0.6, -0.55],
      [0.6, 0.9],
    ]);
    expect(line(atTee, "side-arm")[0]).toEqual(line(before, "side-arm")[0]);
    expect(line(atJoint, "purge").at(-1)).toEqual([6, -0.05]);
  });

  it("a bend is added where the pipe passes and taken out again", () => {
    const before = yard();
    const bent = checkAction(before, addBend(before, id("supply"), [2, 1]));
    expect(part(bent, "supply", "pipe").route).toEqual([
      [0.4, 0.9],
      [2, 0.9],
      [3.7, 0.9],
      [3.7, 0.1],
    ]);

    const after = checkAction(bent, removeBend(bent, id("supply"), 1));
    expect(part(after, "supply", "pipe").route).toEqual(part(before, "supply", "pipe").route);
  });

  it("a breather slides along and keeps the length of its riser", () => {
    const before = yard();
    const after = checkAction(before, slideDevice(before, id("breather"), id("supply"), 5.4));

    const vent = part(after, "breather", "vent");
    expect(vent.on.at).toBe(5.4);
    expect(vent.openEndZ).toBeLessThan(1.1);
  });

  it("a riser's end can not be pulled below its pipe", () => {
    const before = yard();
    const after = checkAction(before, pullVentEnd(before, id("breather"), 0.2));

    expect(part(after, "breather", "vent").openEndZ).toBe(0.9);
  });
});

describe("bodies", () => {
  it("a vessel takes its openings and the legs at them along", () => {
    const before = yard();
    const after = checkAction(before, moveParts(before, only("trough"), 0.5, 0.3));

    expect(part(after, "trough", "vessel")).toMatchObject({ x: 4.5, baseLevel: 0.3, rimLevel: 1.1 });
    expect(part(after, "supply", "pipe").to).toMatchObject({ z: 0.4 });
    expect(part(after, "supply", "pipe").route?.at(-1)).toEqual([3.7, 0.4]);
    expect(part(after, "lip", "spillway").crestZ).toBe(1.02);
  });

  it("a pond takes the pump in it along, and the riser above it stays upright", () => {
    const before = yard();
    const after = checkAction(before, moveParts(before, only("basin"), -1, 0));

    expect(part(after, "lift", "pump").x).toBe(-0.6);
    expect(part(after, "supply", "pipe").route?.[0]).toEqual([-0.6, 0.9]);
  });

  it("everything chosen together moves as one", () => {
    const before = yard();
    const after = checkAction(before, moveParts(before, new Set(before.parts.keys()), 2, 1));

    expect(line(after, "supply").flatMap(([x, z]) => [x - 2, z - 1])).toEqual(
      line(before, "supply")
        .flat()
        .map((n) => expect.closeTo(n, 9)),
    );
    expect(part(after, "breather", "vent").openEndZ).toBe(2.1);
  });

  it("a pump dragged out of the water stands beside it", () => {
    const before = yard();
    const after = checkAction(before, moveParts(before, only("lift"), -2, 1));

    expect(part(after, "lift", "pump").in).toBeUndefined();
  });

  it.each([
    ["left", -0.5],
    ["right", 3.6],
    ["rim", 0.3],
    ["bottom", -1],
    ["water", -0.2],
  ] as const)("the %s edge of a pond goes where it is pulled", (edge, to) => {
    const before = yard();
    const after = checkAction(before, resizeBody(before, id("basin"), edge, to));

    const { x, width, rimLevel, bedLevel, waterLevel } = part(after, "basin", "pond");
    expect({ left: x, right: x + width, rim: rimLevel, bottom: bedLevel, water: waterLevel }[edge]).toBeCloseTo(to, 9);
  });

  it("a rim pulled below the base stops above it", () => {
    const before = yard();
    const after = checkAction(before, resizeBody(before, id("trough"), "rim", -3));

    const { baseLevel, rimLevel } = part(after, "trough", "vessel");
    expect(rimLevel).toBeGreaterThan(baseLevel);
  });

  it("a boundary of the stone gives to the layer below what it takes from the one above", () => {
    const before = yard();
    const after = checkAction(before, setMediaBoundary(before, id("trough"), 0, 0.3));

    expect(part(after, "trough", "vessel").media?.map((layer) => layer.depth)).toEqual([0.3, 0.15]);
  });

  it("the top of the stone stops at the rim", () => {
    const before = yard();
    const after = checkAction(before, setMediaBoundary(before, id("trough"), 1, 5));

    const depths = part(after, "trough", "vessel").media?.map((layer) => layer.depth) ?? [];
    expect(depths.reduce((a, b) => a + b, 0)).toBeCloseTo(0.8, 9);
  });
});

describe("fields", () => {
  it("several parts are changed at once", () => {
    const before = yard();
    const after = checkAction(
      before,
      setField(before, only("supply", "return"), "Set the bore", (p) => {
        if (p.kind === "pipe") p.bore = 0.044;
      }),
    );

    expect([part(after, "supply", "pipe").bore, part(after, "return", "pipe").bore]).toEqual([0.044, 0.044]);
  });

  it("a bore of nothing is refused and says what is wanted", () => {
    const why = checkRefused(
      setField(yard(), only("supply"), "Set the bore", (p) => {
        if (p.kind === "pipe") p.bore = 0;
      }),
    );

    expect(why).toBe("Supply, Bore: expected a bore from 1 mm to 2,000 mm, found 0 mm.");
  });

  it("the site and the title are changed by edits as well", () => {
    const before = yard();
    const named = checkAction(before, setTitle(before, "Back yard"));
    const after = checkAction(
      named,
      setSite(named, "Set the friction formula", (site) => {
        site.friction = "darcy-weisbach";
      }),
    );

    expect([after.title, after.site.friction]).toEqual(["Back yard", "darcy-weisbach"]);
  });

  it("typing the value that stands there is no step", () => {
    const changed = setTitle(yard(), "Yard");

    expect(changed).toMatchObject({ ok: true, edit: null });
  });
});

describe("removing, copying, aligning", () => {
  it.each([...yard().parts.keys()])("without %s the rest is still a drawing", (name) => {
    const before = yard();
    const after = checkAction(before, removeParts(before, new Set([name])));

    expect(after.parts.has(name)).toBe(false);
  });

  it("a pipe whose vessel goes keeps its place with an open end", () => {
    const before = yard();
    const after = checkAction(before, removeParts(before, only("trough")));

    expect(part(after, "supply", "pipe").to).toEqual({ open: true, x: 4, z: 0.1 });
    expect(after.parts.has(id("lip"))).toBe(false);
  });

  it("a removed pipe takes what sat on it, and its branch stays in the air", () => {
    const before = yard();
    const after = checkAction(before, removeParts(before, only("supply")));

    expect(after.parts.has(id("breather"))).toBe(false);
    expect(part(after, "side-arm", "pipe").from).toHaveProperty("open", true);
  });

  it("all of it can be removed", () => {
    const before = yard();
    const after = checkAction(before, removeParts(before, new Set(before.parts.keys())));

    expect(after.parts.size).toBe(0);
  });

  it("a copied part comes back as a part of its own", () => {
    const before = yard();
    const { changed, ids } = pasteParts(before, copyParts(before, only("trough", "purge", "tap")), 2, 0);
    const after = checkAction(before, changed);

    expect([...ids]).toEqual(["trough-2", "purge-2", "tap-2"]);
    expect(part(after, "purge-2", "pipe").from).toMatchObject({ part: "trough-2" });
    expect(part(after, "tap-2", "valve").on.pipe).toBe("purge-2");
  });

  it("everything can be duplicated at once", () => {
    const before = yard();
    const after = checkAction(before, duplicateParts(before, new Set(before.parts.keys())).changed);

    expect(after.parts.size).toBe(before.parts.size * 2);
  });

  it("text that is no drawing is not pasted", () => {
    checkRefused(pasteParts(yard(), "hello", 0, 0).changed);
  });

  it("chosen bodies come to one rim", () => {
    const before = yard();
    const after = checkAction(before, alignParts(before, only("basin", "trough"), "top"));

    expect(part(after, "trough", "vessel").rimLevel).toBe(part(before, "basin", "pond").rimLevel);
  });

  it("another drawing takes this one's place in one step", () => {
    const before = yard();
    const other = checkAction(before, moveParts(before, only("trough"), 1, 1));
    const after = checkAction(before, replaceSection(before, "Raise the trough", other));

    expect(part(after, "trough", "vessel").x).toBe(5);
  });
});
