/** The report as a page: the words of the text, in HTML that draws and nothing else. */
import { expect, test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { reportPage } from "../../hydraulics/report/page.ts";
import { reportText } from "../../hydraulics/report/text.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { loopedSupply, note, pond, section, vessel } from "../support/builders.ts";
import { allElements, parseXml, type XmlElement } from "../support/xml.ts";

/** The page as XML: its elements without an end are closed, its first line is left out. */
function parsed(page: string): XmlElement {
  expect(page.startsWith("<!doctype html>\n")).toBe(true);
  return parseXml(page.slice(page.indexOf("\n") + 1).replace(/<(meta[^>]*|br)>/g, "<$1/>"));
}

const words = (root: XmlElement): string =>
  allElements(root)
    .filter(({ name }) => name !== "style")
    .map(({ text }) => text)
    .join(" ");

const harmless = new Set(
  "html head meta title style body h1 h2 section p b br span ul li table thead tbody tr th td".split(" "),
);

test.each(["metric", "us"] as const)("says in %s what the text says, cautions and all", (units) => {
  const drawn = readDrawing("../../samples/no-breather.json");
  const assessment = assess(drawn, { quick: units === "us", faults: units === "metric" });

  const page = parsed(reportPage(drawn, assessment, { units }));
  const said = words(page).replace(/\s+/g, " ");
  const figures = reportText(drawn, assessment, { units }).match(/\d[\d.,]*/g) ?? [];

  expect(figures.length).toBeGreaterThan(50);
  expect(figures.filter((figure) => !said.includes(figure))).toEqual([]);
  for (const each of [/DRAINS:/, /residual-current protection/, /small children/, /air gap/, /not a licensed design/])
    expect(said).toMatch(each);
});

test("no figure stands apart from its unit", () => {
  const drawn = readDrawing("../../samples/no-breather.json");

  for (const units of ["metric", "us"] as const) {
    const said = words(parsed(reportPage(drawn, assess(drawn), { units })));
    expect(said).toMatch(/\d\u00a0(L|gal)/);
    expect(said.match(/\d (?:m|mm|L|L\/h|m\/s|ft|in|gph|gal|%|s|min|h)(?![\p{L}\d/])/gu)).toBe(null);
  }
});

test("holds elements of text and tables only, and no attribute that loads, links or runs", () => {
  const drawn = loopedSupply();

  const page = parsed(reportPage(drawn, assess(drawn), { units: "metric" }));

  expect(allElements(page).filter(({ name }) => !harmless.has(name))).toEqual([]);
  const attributes = new Set(allElements(page).flatMap((each) => [...each.attributes.keys()]));
  expect([...attributes].sort()).toEqual(["charset", "class", "content", "http-equiv", "lang", "name", "scope"]);
});

test.each([
  `</title><script>alert(1)</script>`,
  `"><img src=x onerror="alert(1)">`,
  `<!-- & &lt; ]]>`,
  `\u001b[31m\u202e`,
])("%j in a title or a label comes out as words", (hostile) => {
  const drawn = section([pond({ label: hostile }), vessel({ label: hostile }), note({ text: hostile })], {
    title: hostile,
  });

  const page = parsed(reportPage(drawn, assess(drawn), { units: "metric" }));

  expect(allElements(page).filter(({ name }) => !harmless.has(name))).toEqual([]);
  const shown = hostile.replace(/[\p{Cc}\p{Cf}]/gu, " ").trim();
  expect(words(page)).toContain(shown);
});
