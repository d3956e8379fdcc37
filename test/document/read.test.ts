/** What the reader refuses and what it says. The rules are the format's; where the format leaves a choice the test's
 * name says what was chosen. */
import { describe, expect, it } from "vitest";
import { readSection, readSectionValue } from "../../hydraulics/document/read.ts";
import type { Problem } from "../../hydraulics/document/section.ts";

type Json = Record<string, unknown>;

const pond: Json = {
  id: "pond",
  kind: "pond",
  x: 0,
  width: 3,
  length: 2,
  bedLevel: -0.8,
  rimLevel: 0.05,
  waterLevel: 0,
};
const tub: Json = {
  id: "tub",
  kind: "vessel",
  x: 4,
  plan: { shape: "round", diameter: 0.9 },
  baseLevel: 0,
  rimLevel: 0.7,
};
const lift: Json = {
  id: "lift",
  kind: "pump",
  x: 0.4,
  z: -0.5,
  in: "pond",
  curve: [
    [0, 2.2],
    [0.0004, 1.7],
    [0.0008, 0],
  ],
};
const supply: Json = {
  id: "supply",
  kind: "pipe",
  from: { part: "lift" },
  to: { part: "tub", z: 0.1, mouth: "side" },
  route: [
    [0.4, 0.5],
    [3.8, 0.5],
    [3.8, 0.1],
  ],
  bore: 0.03,
};
const vent: Json = { id: "vent", kind: "vent", on: { pipe: "supply", at: 2 }, bore: 0.01, openEndZ: 0.9 };
const sound = [pond, tub, lift, supply, vent];

const file = (parts: unknown, more: Json = {}): Json => ({
  format: "holdwater-section",
  version: 1,
  title: "Test",
  site: {},
  parts,
  ...more,
});

function problemsOf(value: unknown): readonly Problem[] {
  const read = readSectionValue(value);
  return read.ok ? [] : read.error;
}

/** The problems of the sound drawing with one part changed or a part more. */
function problemsWith(id: string, change: Json): readonly Problem[] {
  const known = sound.some((part) => part.id === id);
  return problemsOf(
    file(known ? sound.map((part) => (part.id === id ? { ...part, ...change } : part)) : [...sound, { id, ...change }]),
  );
}

const paths = (problems: readonly Problem[]) => problems.map((problem) => problem.path);

describe("a drawing that is right", () => {
  it("opens, with its parts in order and absent fields absent", () => {
    const read = readSectionValue(file(sound));

    if (!read.ok) throw new Error(JSON.stringify(read.error));
    expect([...read.value.parts.keys()]).toEqual(["pond", "tub", "lift", "supply", "vent"]);
    expect([...read.value.parts.values()][1]).toEqual({ ...tub, rank: 1 });
  });

  it.each([
    ["no parts", file([])],
    ["no pond and no pump", file([tub])],
    ["neither title nor site", { format: "holdwater-section", version: 1, parts: [] }],
    ["a pump with two greatest values", file([pond, { ...lift, curve: undefined, maxFlow: 0.001, maxHead: 2 }])],
    [
      "a loose pump and a loose pipe",
      file([
        { ...lift, in: undefined },
        { id: "p", kind: "pipe", from: { open: true, x: 0, z: 1 }, to: { open: true, x: 1, z: 0 }, bore: 0.02 },
      ]),
    ],
    [
      "a dry pond and one full to its rim",
      file([
        { ...pond, waterLevel: -0.8 },
        { ...pond, id: "b", x: 9, waterLevel: 0.05 },
      ]),
    ],
    ["bores of 1 mm and 2 m", file([pond, { ...lift, outletBore: 0.001 }, tub, { ...supply, bore: 2 }])],
    ["levels at both ends of the range", file([{ ...pond, bedLevel: -100, waterLevel: 0, rimLevel: 100 }])],
    [
      "a curve of forty points",
      file([pond, { ...lift, curve: Array.from({ length: 40 }, (_, i) => [i * 1e-5, 4 - i * 0.1]) }]),
    ],
    [
      "ids that name what every object has",
      file([
        { ...pond, id: "constructor" },
        { ...pond, id: "tostring", x: 9 },
        { ...lift, in: "constructor" },
      ]),
    ],
    [
      "a tee at either end of another pipe",
      file([
        ...sound,
        { id: "b", kind: "pipe", from: { pipe: "supply", at: 0 }, to: { open: true, x: 0, z: 2 }, bore: 0.02 },
      ]),
    ],
    [
      "a text of 400 characters, each of two units",
      file([{ id: "n", kind: "note", x: 0, z: 0, text: "🜄".repeat(400) }]),
    ],
    ["a vent whose open end is level with its pipe", file([pond, tub, lift, supply, { ...vent, openEndZ: 0.5 }])],
    [
      "a valve, a check valve and a vent at one place",
      file([
        ...sound,
        { id: "v", kind: "valve", on: { pipe: "supply", at: 2 } },
        { id: "c", kind: "checkValve", on: { pipe: "supply", at: 2 } },
      ]),
    ],
    ["several pipes on one pump's outlet", file([...sound, { ...supply, id: "second" }])],
  ])("opens with %s", (_, value) => {
    expect(problemsOf(JSON.parse(JSON.stringify(value)))).toEqual([]);
  });
});

describe("the file as a whole", () => {
  it.each([
    ["nothing", "", "", "the end of the file at line 1, column 1"],
    ["a list", "[1]", "", "a list of 1"],
    ["a missing comma", '{\n  "format": "holdwater-section"\n  "version": 1 }', "format", '"\\"" at line 3, column 3'],
    ["a text that never ends", '{ "format": "hold', "format", "the end of the file at line 1, column 18"],
    ["two commas", '{"parts":[1,,2]}', "parts[1]", '"," at line 1, column 13'],
    ["a number with a leading zero", '{"x": 01}', "x", '"1" at line 1, column 8'],
    ["something after the end", "{} x", "", '"x" at line 1, column 4'],
  ])("says where %s goes wrong", (_, text, path, found) => {
    const read = readSection(text);

    expect(read.ok ? [] : read.error.map((problem) => [problem.path, problem.found])).toEqual([[path, found]]);
  });

  it("refuses another format and another version, and says nothing else of it", () => {
    expect(problemsOf({ ...file(7), format: "drawing" })).toEqual([
      { path: "format", expected: '"holdwater-section"', found: '"drawing"' },
    ]);
    expect(problemsOf({ ...file(7), version: 2 })).toEqual([
      { path: "version", expected: "1, the version that this program reads", found: "2" },
    ]);
    expect(paths(problemsOf({ ...file(7), version: "1" }))).toEqual(["version"]);
  });

  it("refuses a site of hot springs, by field", () => {
    expect(
      paths(
        problemsOf(
          file([], {
            site: {
              waterTemperature: 41,
              groundLevel: 101,
              friction: "none",
              tariff: -1,
              freeboard: "5 cm",
              currency: 3,
            },
          }),
        ),
      ),
    ).toEqual([
      "site.groundLevel",
      "site.waterTemperature",
      "site.friction",
      "site.freeboard",
      "site.tariff",
      "site.currency",
    ]);
    expect(
      problemsOf(
        file([], {
          site: {
            waterTemperature: 40,
            groundLevel: -100,
            friction: "darcy-weisbach",
            tariff: 0,
            freeboard: 0,
            currency: "kr",
          },
        }),
      ),
    ).toEqual([]);
  });

  it("refuses fields it does not know, at every depth, by their path", () => {
    expect(
      paths(
        problemsOf(
          file(
            [
              { ...pond, colour: "green" },
              { ...tub, plan: { shape: "round", diameter: 1, width: 2 } },
            ],
            { author: "x", site: { sea: 1 } },
          ),
        ),
      ),
    ).toEqual(["author", "site.sea", "parts[0].colour", "parts[1].plan.width"]);
  });

  it("takes a field called __proto__ for one it does not know", () => {
    const read = readSection(`{"format":"holdwater-section","version":1,"parts":[],"__proto__":{"polluted":true}}`);

    expect(read.ok ? [] : paths(read.error)).toEqual(["__proto__"]);
    expect(({} as Json).polluted).toBeUndefined();
  });

  it("refuses a field that stands there twice", () => {
    const read = readSection(`{"format":"holdwater-section","version":1,\n"title":"a","title":"b","parts":[]}`);

    expect(read.ok ? [] : read.error).toEqual([
      { path: "title", expected: "each field once", found: "the field again at line 2, column 13" },
    ]);
  });

  it("refuses more than 16 MiB, counted in bytes, and a nest without end, at once", () => {
    const large = readSection(" ".repeat(16 * 1024 * 1024 + 1));
    const wide = readSection(`"${"€".repeat(6 * 1024 * 1024)}"`);
    const deep = readSection("[".repeat(5_000_000));

    for (const read of [large, wide]) expect(read.ok ? "" : read.error[0]?.expected).toBe("a file of at most 16 MiB");
    expect(deep.ok ? "" : deep.error[0]?.expected).toContain("64 deep");
  });

  it("refuses 20,001 parts and opens 20,000", () => {
    const notes = (count: number) =>
      Array.from({ length: count }, (_, i) => ({ id: `n${i}`, kind: "note", x: 0, z: 0, text: "" }));

    expect(problemsOf(file(notes(20_000)))).toEqual([]);
    expect(paths(problemsOf(file(notes(20_001))))).toEqual(["parts"]);
  });

  it("lists the first hundred problems of a file that is wrong throughout, and says how many there are", () => {
    const problems = problemsOf(file(Array.from({ length: 500 }, () => 1)));

    expect(problems).toHaveLength(101);
    expect(problems[100]).toEqual({ path: "", expected: expect.stringContaining("first 100"), found: "500 of them" });
  });

  it("tells every problem of a file at once", () => {
    const problems = problemsOf(
      file(
        [
          { ...pond, width: "3" },
          { ...tub, rimLevel: -1 },
          { ...lift, in: "lake" },
          { ...supply, bore: 30 },
          { ...vent, openEndZ: 0.2 },
        ],
        { title: 7 },
      ),
    );

    // The vent's pipe can't be read, so nothing is said of its level.
    expect(paths(problems)).toEqual(["title", "parts[0].width", "parts[1].rimLevel", "parts[3].bore", "parts[2].in"]);
  });
});

describe("a part", () => {
  it.each<[string, string, Json, string]>([
    ["an unknown kind", "x", { kind: "fountain" }, "parts[5].kind"],
    ["an id with a capital", "vent", { id: "Vent" }, "parts[4].id"],
    ["an id of 41 characters", "vent", { id: "a".repeat(41) }, "parts[4].id"],
    ["the id of another part", "vent", { id: "tub" }, "parts[4].id"],
    ["a number in quotes", "pond", { width: "3" }, "parts[0].width"],
    ["a number that is not finite", "pond", { width: Number.POSITIVE_INFINITY }, "parts[0].width"],
    ["no number at all", "pond", { width: Number.NaN }, "parts[0].width"],
    ["a bore under 1 mm", "supply", { bore: 0.0009 }, "parts[3].bore"],
    ["a bore over 2 m", "supply", { bore: 2.01 }, "parts[3].bore"],
    ["a level beyond 100 m", "lift", { z: -100.1 }, "parts[2].z"],
    ["a place beyond 10 km", "tub", { x: 10_001 }, "parts[1].x"],
    ["a rim under the bed", "pond", { rimLevel: -0.9 }, "parts[0].rimLevel"],
    ["a rim at the base", "tub", { rimLevel: 0 }, "parts[1].rimLevel"],
    ["water over the pond's rim", "pond", { waterLevel: 0.06 }, "parts[0].waterLevel"],
    ["water under the pond's bed", "pond", { waterLevel: -0.81 }, "parts[0].waterLevel"],
    ["a plan of no known shape", "tub", { plan: { shape: "oval" } }, "parts[1].plan.shape"],
    ["a bed without voids", "tub", { media: [{ depth: 0.1, grain: 0.01, porosity: 0 }] }, "parts[1].media[0].porosity"],
    [
      "a bed of voids alone",
      "tub",
      { media: [{ depth: 0.1, grain: 0.01, porosity: 1 }] },
      "parts[1].media[0].porosity",
    ],
    ["an overflow into a pump", "tub", { overflow: "lift" }, "parts[1].overflow"],
    ["an overflow into itself", "tub", { overflow: "tub" }, "parts[1].overflow"],
    ["a curve of one point", "lift", { curve: [[0, 2]] }, "parts[2].curve"],
    [
      "a curve of 201 points",
      "lift",
      { curve: Array.from({ length: 201 }, (_, i) => [i * 1e-5, 9 - i * 0.01]) },
      "parts[2].curve",
    ],
    [
      "a curve whose head rises",
      "lift",
      {
        curve: [
          [0, 2.2],
          [0.001, 1.7],
          [0.002, 1.9],
        ],
      },
      "parts[2].curve[2][1]",
    ],
    [
      "a curve whose head stays",
      "lift",
      {
        curve: [
          [0, 2.2],
          [0.001, 2.2],
        ],
      },
      "parts[2].curve[1][1]",
    ],
    [
      "a curve whose flow falls",
      "lift",
      {
        curve: [
          [0.001, 2.2],
          [0, 1.7],
        ],
      },
      "parts[2].curve[1][0]",
    ],
    [
      "a curve of negative flow",
      "lift",
      {
        curve: [
          [-0.001, 2.2],
          [0, 1.7],
        ],
      },
      "parts[2].curve[0][0]",
    ],
    ["a curve and greatest values", "lift", { maxFlow: 0.001, maxHead: 2 }, "parts[2].curve"],
    ["neither a curve nor greatest values", "lift", { curve: undefined }, "parts[2].curve"],
    ["a greatest head alone", "lift", { curve: undefined, maxHead: 2 }, "parts[2].maxFlow"],
    ["a pump in a pump", "lift", { in: "lift" }, "parts[2].in"],
    ["a fitting of no known type", "supply", { fittings: [{ type: "knot", count: 1 }] }, "parts[3].fittings[0].type"],
    ["half a fitting", "supply", { fittings: [{ type: "elbow90", count: 0.5 }] }, "parts[3].fittings[0].count"],
    ["another fitting without its k", "supply", { fittings: [{ type: "other", count: 1 }] }, "parts[3].fittings[0].k"],
    [
      "a bend with a k of its own",
      "supply",
      { fittings: [{ type: "elbow90", k: 1, count: 1 }] },
      "parts[3].fittings[0].k",
    ],
    ["a route point of three numbers", "supply", { route: [[0, 0, 0]] }, "parts[3].route[0]"],
    ["a route of 201 points", "supply", { route: Array.from({ length: 201 }, (_, i) => [i, 0]) }, "parts[3].route"],
    ["an end that says nothing", "supply", { to: {} }, "parts[3].to"],
    ["an end that says two things", "supply", { to: { part: "tub", z: 0, mouth: "side", open: true } }, "parts[3].to"],
    ["an end at no part", "supply", { to: { part: "vat", z: 0, mouth: "side" } }, "parts[3].to.part"],
    ["an end at a vent", "supply", { to: { part: "vent", z: 0, mouth: "side" } }, "parts[3].to.part"],
    ["an end in a body without a level", "supply", { to: { part: "tub", mouth: "side" } }, "parts[3].to.z"],
    ["an end in a body without a mouth", "supply", { to: { part: "tub", z: 0.1 } }, "parts[3].to.mouth"],
    ["an end on a pump with a level", "supply", { from: { part: "lift", z: 0.1 } }, "parts[3].from.z"],
    ["an end at the inlet of a pump that stands in a pond", "supply", { to: { part: "lift" } }, "parts[3].to.part"],
    ["a tee into itself", "supply", { to: { pipe: "supply", at: 1 } }, "parts[3].to.pipe"],
    ["a tee into a pond", "supply", { to: { pipe: "pond", at: 1 } }, "parts[3].to.pipe"],
    ["an end that is not open", "supply", { to: { open: false, x: 1, z: 1 } }, "parts[3].to.open"],
    ["a vent on no pipe", "vent", { on: { pipe: "drain", at: 1 } }, "parts[4].on.pipe"],
    ["a vent beyond its pipe's end", "vent", { on: { pipe: "supply", at: 5.5 } }, "parts[4].on.at"],
    ["a vent that opens below its pipe", "vent", { openEndZ: 0.49 }, "parts[4].openEndZ"],
    ["a valve more than open", "v", { kind: "valve", on: { pipe: "supply", at: 1 }, open: 1.1 }, "parts[5].open"],
    ["a second vent at one place", "v", { kind: "vent", on: { pipe: "supply", at: 2 }, bore: 0.01 }, "parts[5].on.at"],
    ["a sill from a pump", "s", { kind: "spillway", from: "lift", to: "ground", crestZ: 0, width: 1 }, "parts[5].from"],
    [
      "a sill from a body into itself",
      "s",
      { kind: "spillway", from: "tub", to: "tub", crestZ: 0, width: 1 },
      "parts[5].to",
    ],
    ["a note of 401 characters", "n", { kind: "note", x: 0, z: 0, text: "a".repeat(401) }, "parts[5].text"],
    ["a label with a control character", "tub", { label: "a\u0000b" }, "parts[1].label"],
    ["a label with half a surrogate pair", "tub", { label: "\ud83d" }, "parts[1].label"],
    ["no text in a note", "n", { kind: "note", x: 0, z: 0 }, "parts[5].text"],
  ])("is refused with %s", (_, id, change, path) => {
    expect(paths(problemsWith(id, change))).toEqual([path]);
  });

  it("is told of in the user's words", () => {
    expect(
      problemsWith("lift", {
        curve: [
          [0, 2.2],
          [0.001, 1.7],
          [0.002, 1.9],
        ],
      }),
    ).toEqual([
      { path: "parts[2].curve[2][1]", expected: "a head below 1.7 m (heads fall as flow rises)", found: "1.9" },
    ]);
    expect(problemsWith("vent", { on: { pipe: "supply", at: 5.5 } })).toEqual([
      { path: "parts[4].on.at", expected: 'a place on "supply", which is 5 m long', found: "5.5" },
    ]);
    expect(problemsWith("supply", { bore: 30 })).toEqual([
      { path: "parts[3].bore", expected: "a bore from 0.001 to 2 m", found: "30" },
    ]);
    expect(problemsWith("supply", { bore: undefined })).toEqual([
      { path: "parts[3].bore", expected: "a bore from 0.001 to 2 m", found: "nothing" },
    ]);
    expect(problemsWith("supply", { to: { part: "vat", z: 0, mouth: "side" } })).toEqual([
      { path: "parts[3].to.part", expected: "the id of a pond, vessel or pump", found: '"vat", which no part has' },
    ]);
  });
});

describe("where pipes lie", () => {
  const open = (x: number, z: number) => ({ open: true, x, z });
  const run = (id: string, from: Json, to: Json, route: number[][] = []): Json => ({
    id,
    kind: "pipe",
    from,
    to,
    route,
    bore: 0.02,
  });

  it("refuses a pipe without length, whatever its extra length", () => {
    expect(paths(problemsOf(file([{ ...run("a", open(1, 1), open(1, 1), [[1, 1]]), extraLength: 2 }])))).toEqual([
      "parts[0].route",
    ]);
  });

  it("refuses a pipe of more than 10 km with what it does not show", () => {
    expect(paths(problemsOf(file([{ ...run("a", open(0, 0), open(9000, 0)), extraLength: 1001 }])))).toEqual([
      "parts[0].route",
    ]);
    expect(problemsOf(file([{ ...run("a", open(0, 0), open(9000, 0)), extraLength: 1000 }]))).toEqual([]);
  });

  it("refuses pipes that tee into each other in a circle, and not those that hang on them", () => {
    const parts = [
      run("hanger", { pipe: "a", at: 0.1 }, open(5, 5)),
      run("a", { pipe: "c", at: 0.1 }, open(1, 0)),
      run("b", { pipe: "a", at: 0.1 }, open(2, 0)),
      run("c", open(3, 0), { pipe: "b", at: 0.1 }),
      run("sound", open(0, 0), open(1, 1)),
    ];

    expect(problemsOf(file(parts))).toEqual([
      {
        path: "parts[1].from.pipe",
        expected: "a tee into a pipe that has its place without this one",
        found: '"c", which hangs on "a" in turn',
      },
      {
        path: "parts[2].from.pipe",
        expected: "a tee into a pipe that has its place without this one",
        found: '"a", which hangs on "b" in turn',
      },
      {
        path: "parts[3].to.pipe",
        expected: "a tee into a pipe that has its place without this one",
        found: '"b", which hangs on "c" in turn',
      },
    ]);
  });

  it("opens tees on tees in any order, however long the chain", () => {
    const chain = Array.from({ length: 20_000 }, (_, i) =>
      run(`p${i}`, i === 0 ? open(0, 0) : { pipe: `p${i - 1}`, at: 0.5 }, open(i % 100, 1 + (i % 90))),
    );

    expect(problemsOf(file(chain))).toEqual([]);
    expect(problemsOf(file(chain.toReversed()))).toEqual([]);
  });
});
