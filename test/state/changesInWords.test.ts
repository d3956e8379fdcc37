/** Two states side by side, as a person reads them: no field's name of the file, no id, no bare SI figure. */
import { describe, expect, test } from "vitest";
import { changesInWords } from "../../editor/panels/why/changesInWords.ts";
import type { Part, PartId, Section } from "../../hydraulics/index.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { flushPipe, flushValve, note, pipe, pond, pump, section, vent, vessel } from "../support/builders.ts";

const drawn = section([
  pond(),
  vessel({ label: "Filter" }),
  pump({ label: "Lift" }),
  pipe({ label: "Supply", fittings: [{ type: "elbow90", count: 2 }] }),
  flushPipe(),
  flushValve(),
  vent(),
  note({ text: "Keep clear" }),
]);

function changed(id: string, by: Record<string, unknown>): Section {
  const was = drawn.parts.get(id as PartId) as Part;
  return { ...drawn, parts: new Map(drawn.parts).set(was.id, { ...was, ...by } as Part) };
}

const rows = (after: Section, units: "metric" | "us" = "metric") =>
  changesInWords(drawn, after, units).map(({ name, field, was, now }) => [name, field, was, now]);

describe("one change is one row", () => {
  test.each([
    ["supply", { bore: 0.05 }, ["Supply", "Bore", "34 mm", "50 mm"]],
    ["supply", { material: "pe" }, ["Supply", "Material", "PVC-U", "polyethylene"]],
    ["supply", { nominal: "50 mm" }, ["Supply", "Size", "—", "50 mm"]],
    [
      "supply",
      { from: { part: "pond", z: -0.4, mouth: "down", x: 1 } },
      ["Supply", "From", "Lift", "Pond, at −0.400 m, facing down, 1.00 m along the sheet"],
    ],
    [
      "supply",
      { to: { pipe: "flush", at: 0.2 } },
      ["Supply", "To", "Filter, at +0.100 m, flush in the wall", "a tee in Flush, 0.200 m from its start"],
    ],
    ["supply", { fittings: [{ type: "elbow45", count: 2 }] }, ["Supply", "Fitting 1", "elbow 90°", "elbow 45°"]],
    ["vessel", { overflow: "pond" }, ["Filter", "Over the rim it spills", "onto the ground", "into Pond"]],
    ["vessel", { label: "Bog" }, ["Bog", "Name", "Filter", "Bog"]],
    ["pump", { speed: 0.8 }, ["Lift", "Speed", "100 %", "80 %"]],
    ["flush-valve", { open: 1 }, ["Flush valve", "Open", "0 %", "100 %"]],
    ["note", { text: "Keep it clear" }, ["Note", "Text", "Keep clear", "Keep it clear"]],
  ] as const)("%s %j", (id, by, row) => {
    expect(rows(changed(id, by))).toEqual([row]);
  });

  test("in feet and inches", () => {
    expect(rows(changed("vessel", { rimLevel: 1.05 }), "us")).toEqual([
      ["Filter", "Rim level", "+2.46 ft", "+3.44 ft"],
    ]);
  });

  test("what is shown alike is told with every digit", () => {
    expect(rows(changed("vessel", { rimLevel: 0.7501 }))).toEqual([["Filter", "Rim level", "0.75 m", "0.7501 m"]]);
  });

  test("a default that is written out is no change", () => {
    expect(rows(changed("vessel", { clogging: 1 }))).toEqual([]);
    expect(rows(drawn)).toEqual([]);
  });

  test("a bend that is moved is moved, and one more is counted", () => {
    const { route = [] } = drawn.parts.get("supply" as PartId) as { route?: [number, number][] };
    const moved = route.map(([x, z], k): [number, number] => (k === 1 ? [x + 0.1, z] : [x, z]));

    expect(rows(changed("supply", { route: moved }))).toEqual([["Supply", "Bends", "3 bends", "3 bends, moved"]]);
    expect(rows(changed("supply", { route: route.slice(1) }))).toEqual([["Supply", "Bends", "3 bends", "2 bends"]]);
  });

  test("a part that went is there no more, and what hung on it is told by its name", () => {
    const parts = new Map(drawn.parts);
    parts.delete("pond" as PartId);

    expect(rows({ ...drawn, parts })).toEqual([["Pond", "the part itself", "there", "—"]]);
  });

  test("the drawing's own", () => {
    expect(rows({ ...drawn, title: "Other", site: { ...drawn.site, friction: "darcy-weisbach" } })).toEqual([
      ["the drawing", "Title", drawn.title, "Other"],
      ["the drawing", "Friction by", "Hazen-Williams", "Darcy-Weisbach"],
    ]);
  });
});

/** Every number in a part, each in turn a little larger. */
function* nudged(value: unknown): Generator<unknown> {
  if (typeof value === "number") yield value + 0.0137;
  else if (Array.isArray(value))
    for (const [k, each] of value.entries()) for (const next of nudged(each)) yield value.with(k, next);
  else if (typeof value === "object" && value !== null)
    for (const [key, each] of Object.entries(value))
      if (key !== "rank") for (const next of nudged(each)) yield { ...value, [key]: next };
}

test.each(drawingsIn(samples))("no number of %s changes without a row that says so", (name) => {
  const before = readDrawing(name);
  for (const part of before.parts.values())
    for (const next of nudged(part)) {
      const after = { ...before, parts: new Map(before.parts).set(part.id, next as Part) };
      const [row, ...more] = changesInWords(before, after, "metric");

      expect(row, JSON.stringify(next)).toBeDefined();
      expect(more).toEqual([]);
      expect(row?.field).not.toMatch(/[a-z][A-Z]|\[|\./);
    }
});
