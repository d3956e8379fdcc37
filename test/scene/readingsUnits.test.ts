/** What a slip, the table of parts and a screen reader say of a part: in one system of units, whichever is shown. */
import { expect, test } from "vitest";
import { readingsOf } from "../../editor/panels/readings/readingsOf.ts";
import type { UnitSystem } from "../../editor/sheet/units.ts";
import { assess } from "../../hydraulics/assess.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { americanFigure, metricFigure, millimetreLevel } from "../support/otherUnits.ts";

function textsOf(path: string, units: UnitSystem): readonly string[] {
  const section = readDrawing(path);
  const assessment = assess(section, { quick: true, starts: true });
  const names = [...section.parts.values()].flatMap(({ label }) => (label ? [label] : []));
  return [...section.parts.values()].flatMap((part) => {
    const { aside, lines, notes } = readingsOf(section, assessment, part, units);
    const texts = [aside, ...lines.flatMap(({ label, value }) => [`${label}: ${value}`]), ...notes];
    // What a person has called a part is not ours to turn.
    return texts.map((text) => names.reduce((rest, name) => rest.replaceAll(name, "…"), text));
  });
}

const drawings = drawingsIn(samples, designs);

test.each(drawings)("%s", (path) => {
  const inFeet = textsOf(path, "us");
  const inMetres = textsOf(path, "metric");

  expect(inFeet.filter((text) => metricFigure.test(text) || millimetreLevel.test(text))).toEqual([]);
  expect(inMetres.filter((text) => americanFigure.test(text))).toEqual([]);
});

test("grains that settle, and what a formula was not tried for, are among them", () => {
  const texts = drawings.flatMap((path) => textsOf(path, "us"));

  expect(texts.filter((text) => /^Settles grains over: 0\.\d+ in$/.test(text)).length).toBeGreaterThan(10);
  expect(texts).toContain("Hazen-Williams is untested below 1.97 in bore");
});
