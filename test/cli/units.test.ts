/** One system of units a report: what is asked for in feet and gallons says nothing in metres and litres,
 * and the other way. */
import { describe, expect, test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { type Section, sentencesOf } from "../../hydraulics/index.ts";
import { litreWords } from "../../hydraulics/powerCut/words.ts";
import { reportPage } from "../../hydraulics/report/page.ts";
import { shown } from "../../hydraulics/report/shown.ts";
import { reportText } from "../../hydraulics/report/text.ts";
import { pairs } from "../scenarios/findingPairs.ts";
import { designs, drawingsIn, readDrawing, samples, trapped } from "../scenarios/readDrawing.ts";
import { pipe, pond, section, vessel } from "../support/builders.ts";

const drawings = drawingsIn(samples, designs, trapped);

const metric =
  /(?:^|[^\p{L}])\d[\d.,]* ?(?:mm|cm|km|m|m²|m³|L|kg|g|t|°C|bar|mbar|kPa|m\/s|m\/h|L\/h|L\/s|m³\/h|m³\/s|mm\/m)(?![\p{L}\d/])|\b(?:millimetre|metre|litre|kilogram)s?\b/u;
const american =
  /\d ?(?:ft|in|gal|gph|gpm|psi|lbs?|ft\/s|ft\/h|°F|yd)(?![\p{L}\d])|\b(?:feet|foot|inch|gallon|pound)s?\b/u;
/** levels to the millimetre, as only metres have them */
const millimetres = /[+−±]\d+\.\d{3}(?!\d)/;

const linesWith = (text: string, ...signs: readonly RegExp[]): readonly string[] =>
  text.split("\n").filter((line) => signs.some((sign) => sign.test(line)));
/** What a page says, a line an element. */
const said = (page: string): string => page.slice(Math.max(page.indexOf("<body>"), 0)).replace(/<[^>]*>/g, "\n");

describe.each(drawings)("%s", (name) => {
  test("says it all in one system of units, as text and as a page", () => {
    // The title is the drawing's own words.
    const drawn: Section = { ...readDrawing(name), title: "Sheet" };
    const assessment = assess(drawn, { quick: true, starts: true, faults: !name.startsWith("traps/") });

    const inFeet = [reportText, reportPage].map((report) => said(report(drawn, assessment, { units: "us" })));
    const inMetres = [reportText, reportPage].map((report) => said(report(drawn, assessment, { units: "metric" })));

    expect(inFeet.flatMap((text) => linesWith(text, metric, millimetres))).toEqual([]);
    expect(inMetres.flatMap((text) => linesWith(text, american))).toEqual([]);
  });
});

test("every finding that there is, and what mends it, turns whole", () => {
  const texts = pairs.flatMap(({ raises }) => {
    const says = sentencesOf(raises, "us");
    return assess(raises, { quick: true, starts: true }).findings.flatMap(({ text, remedy }) =>
      [text, remedy].map(says),
    );
  });

  expect(texts.length).toBeGreaterThan(200);
  expect(texts.filter((text) => metric.test(text) || millimetres.test(text))).toEqual([]);
});

test("litres in a sentence are rounded as the table beside it has them, in either system", () => {
  const drawn = section([pond({ label: "Pond 9,012 L" }), vessel()]);

  for (const volume of [2.1124, 0.1324, 0.0617, 0.00117, 12.34, 0.9996, 1.0004]) {
    for (const system of ["metric", "us"] as const) {
      const says = sentencesOf(drawn, system);
      expect(says(`Pond 9,012 L is left with ${litreWords(volume)}.`)).toBe(
        `Pond 9,012 L is left with ${shown("volume", volume, system)}.`,
      );
    }
  }
  expect(sentencesOf(drawn, "metric")("It brings 2,214 L/h, and loses 1,234 L a day.")).toBe(
    "It brings 2,210 L/h, and loses 1,230 L a day.",
  );
});

test("names that hold a figure stay as they were written, whole and cut", () => {
  const long = "The long line of 50 mm hose over the old wall by 3 m";
  const drawn = section([pond({ label: "Pond 9,000 L" }), vessel(), pipe({ label: long })]);
  const says = sentencesOf(drawn, "us");

  expect(says("In Pond 9,000 L stand 8,200 L at −0.030; Pond 9,000 L is 0.65 m deep.")).toBe(
    "In Pond 9,000 L stand 2,170 gal at −0.10; Pond 9,000 L is 2 ft 1 5/8 in deep.",
  );
  const cut = `${long.slice(0, 39).trimEnd()}…`;
  expect(says(`${cut} loses 40 mm.`)).toBe(`${cut} loses 1.57 in.`);
});
