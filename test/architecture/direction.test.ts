/** Data flows one way, document → network → solution → findings → drawing, and no stage reaches back. */
import { expect, test } from "vitest";
import { importsIn, importsOf, sourcesOf } from "./sources.ts";

// In the order of the flow. The first line that a path begins with is its layer; a file may import from its own
// layer and from those above it. A new folder gets its line here.
const layers: readonly (readonly string[])[] = [
  ["must.ts"],
  ["document/"],
  // What a stage hands on, as types alone: they stand early, so that every stage can speak of them.
  ["solver/running.ts", "powerCut/powerCut.ts", "findings/finding.ts", "faults/fault.ts"],
  ["formulas/"],
  ["elements/"],
  ["capacity/"],
  // The machine: links with their laws, and the system of equations that Newton's method works on.
  [
    "solver/links/",
    "solver/equations.ts",
    "solver/fullLines.ts",
    "solver/inTime.ts",
    "solver/keep.ts",
    "solver/matrix.ts",
    "solver/newton.ts",
    "solver/ordering.ts",
    "solver/sparse.ts",
    "solver/system.ts",
  ],
  ["network/"],
  ["solver/"],
  ["powerCut/"],
  ["findings/"],
  ["faults/"],
  ["report/"],
  ["materials/"],
  ["worked/"],
  ["assess.ts"],
  ["sweep/"],
  ["sizing/"],
  ["mends/"],
  ["layout/"],
  ["materials/", "sweep/", "sizing/"],
  ["index.ts"],
  ["answerCall.ts"],
  ["check.ts"],
];

const layerOf = (file: string): number =>
  layers.findIndex((layer) => layer.some((start) => file.startsWith(`hydraulics/${start}`)));

test("every file of the library has its place in the flow", () => {
  const placeless = sourcesOf("hydraulics").filter((file) => layerOf(file) < 0);

  expect(placeless).toEqual([]);
});

test("no stage of the library imports from a later one", () => {
  const backward = sourcesOf("hydraulics").flatMap((file) =>
    importsOf(file)
      .filter(({ own, target }) => own && layerOf(target) > layerOf(file))
      .map(({ target }) => `${file} imports ${target}`),
  );

  expect(backward).toEqual([]);
});

test("what a stage hands on is types alone", () => {
  const contracts = ["solver/running.ts", "powerCut/powerCut.ts", "findings/finding.ts", "faults/fault.ts"];
  const running = contracts.flatMap((file) => importsOf(`hydraulics/${file}`).filter(({ typeOnly }) => !typeOnly));

  expect(running).toEqual([]);
});

test("the library imports nothing but itself, its command line nothing but Node besides", () => {
  const outward = sourcesOf("hydraulics").flatMap((file) =>
    importsOf(file)
      .filter(({ own, target }) => !(own && target.startsWith("hydraulics/")))
      .filter(({ target }) => !(file === "hydraulics/check.ts" && target.startsWith("node:")))
      .map(({ target }) => `${file} imports ${target}`),
  );

  expect(outward).toEqual([]);
});

test("the editor knows the library by its public face only", () => {
  const inward = sourcesOf("editor").flatMap((file) =>
    importsOf(file)
      .filter(({ target }) => target.startsWith("hydraulics/") && target !== "hydraulics/index.ts")
      .map(({ target }) => `${file} imports ${target}`),
  );

  expect(inward).toEqual([]);
});

test("the editor does not depend on the tests", () => {
  const wrong = sourcesOf("editor").filter((file) => importsOf(file).some(({ target }) => target.startsWith("test/")));

  expect(wrong).toEqual([]);
});

// Through everything they import as well: the SVG has to be written where there is no browser.
test("scene and svg reach neither React nor Konva", () => {
  const reached = [...sourcesOf("editor/scene"), ...sourcesOf("editor/svg")].flatMap((file) =>
    packagesBehind(file)
      .filter((name) => /^(react|react-dom|konva|react-konva)(\/|$)/.test(name))
      .map((name) => `${file} reaches ${name}`),
  );

  expect(reached).toEqual([]);
});

function packagesBehind(start: string): string[] {
  const seen = new Set([start]);
  const packages = new Set<string>();
  for (const file of seen) {
    if (!/\.tsx?$/.test(file)) continue;
    for (const { own, target, typeOnly } of importsOf(file)) {
      if (typeOnly) continue;
      if (own) seen.add(target);
      else packages.add(target);
    }
  }
  return [...packages];
}

test("no two files wait for each other", () => {
  const files = [...sourcesOf("hydraulics"), ...sourcesOf("editor")];
  const next = new Map(
    files.map((file) => [
      file,
      importsOf(file)
        .filter(({ own, typeOnly }) => own && !typeOnly)
        .map(({ target }) => target),
    ]),
  );
  const done = new Set<string>();
  const rings: string[] = [];
  const walk = (file: string, path: readonly string[]): void => {
    if (path.includes(file)) rings.push([...path.slice(path.indexOf(file)), file].join(" → "));
    else if (!done.has(file)) {
      for (const target of next.get(file) ?? []) walk(target, [...path, file]);
      done.add(file);
    }
  };

  for (const file of files) walk(file, []);

  expect(rings).toEqual([]);
});

test("an import is seen in whatever form it is written", () => {
  const text = [
    'import type { A } from "./a.ts";',
    "import {\n  b,\n  c,\n} from '../b/index.ts';",
    'export * from "./c.ts"; import "./d.css";',
    'const e = await import("./e.ts");',
    'new Worker(new URL("./f.ts", import.meta.url));',
    '// import "./not.ts"',
    'import g from "react";',
  ].join("\n");

  const found = importsIn("editor/x/y.ts", text);

  expect(found.map(({ target }) => target)).toEqual([
    "editor/x/a.ts",
    "editor/b/index.ts",
    "editor/x/c.ts",
    "editor/x/d.css",
    "editor/x/e.ts",
    "editor/x/f.ts",
    "react",
  ]);
  expect(found.map(({ typeOnly }) => typeOnly).filter(Boolean)).toHaveLength(1);
});
