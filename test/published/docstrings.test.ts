/** Each law says in its own file by what equation it goes, where that holds and where it is from. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

/** Files without a law: tables and constants, which name a source beside each figure, and types. */
const noLaw = new Set([
  "elements/element.ts",
  "elements/index.ts",
  "formulas/airGap.ts",
  "formulas/gravity.ts",
  "formulas/range.ts",
  "formulas/sizes.ts",
  "formulas/stoneDensity.ts",
  "formulas/units.ts",
]);
const here = new URL("../../hydraulics/", import.meta.url);
const files = ["elements", "formulas"].flatMap((folder) =>
  readdirSync(new URL(`${folder}/`, here)).map((name) => `${folder}/${name}`),
);
const docstringsOf = (file: string): string =>
  (readFileSync(new URL(file, here), "utf8").match(/\/\*\*[\s\S]*?\*\//g) ?? []).join("\n");

it.each(files.filter((file) => !noLaw.has(file)))("%s says its equation, range and source", (file) => {
  const said = docstringsOf(file);

  expect(said, "an equation").toMatch(/ = /);
  expect(said, "where it holds").toMatch(/\bHolds\b|\blaminar below\b/i);
  expect(said, "where it is from").toMatch(/\bSource: /);
});

it("the files without a law are there", () => {
  expect([...noLaw].filter((file) => !files.includes(file))).toEqual([]);
});
