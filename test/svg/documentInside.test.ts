/** What is said of an SVG that is not ours, was cut or was edited; and what of it still opens. */
import { describe, expect, test } from "vitest";
import { readDrawing } from "../../editor/state/files/readDrawing.ts";
import { sectionTextFromSvg } from "../../editor/svg/documentInside.ts";
import { writeSection } from "../../hydraulics/index.ts";
import { loopedSupply } from "../support/builders.ts";
import { randomSection } from "../support/randomSection.ts";
import { sheetOf } from "./sheet.ts";

const whole = sheetOf(loopedSupply());
const around = (inside: string): string => `<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`;
const holding = (words: string): string => around(`<metadata id="holdwater-section">${words}</metadata>`);

describe("a file that is not a sheet of ours", () => {
  test.each([
    ["another picture", around("<circle r='3'/>"), /holds no drawing/],
    ["a sheet whose drawing was taken out", whole.replace(/<metadata[\s\S]*<\/metadata>/, ""), /holds no drawing/],
    ["a sheet whose drawing was emptied", holding("  \n"), /holds no drawing/],
    ["a web page", "<html><body></body></html>", /neither JSON nor an SVG/],
    ["a declaration alone", '<?xml version="1.0"?>\n', /neither JSON nor an SVG/],
    ["a document type", '<!DOCTYPE svg [<!ENTITY a "b">]><svg/>', /document type/],
    ["two drawings", around('<metadata id="holdwater-section">{}</metadata>'.repeat(2)), /more than one/],
    ["crossed tags", around("<g><text></g></text>"), /not well-formed/],
    ["words after the end", `${around("")}oops`, /not well-formed/],
    ["an attribute without quotes", "<svg width=3></svg>", /not well-formed/],
    ["a bare & in the drawing", holding('{"title":"a & b"}'), /stands for nothing/],
    ["an unknown entity in the drawing", holding("&nbsp;"), /stands for nothing/],
    ["a number that is no letter", holding("&#0;"), /stands for nothing/],
    ["elements in the drawing", holding("<g/>"), /elements where the drawing/],
    [
      "a drawing in a comment only",
      around('<!-- <metadata id="holdwater-section">{}</metadata> -->'),
      /holds no drawing/,
    ],
    [
      "a drawing in an attribute only",
      around(`<text title='&lt;metadata id="holdwater-section"&gt;'/>`),
      /holds no drawing/,
    ],
    ["elements without end", `${"<g>".repeat(3)}`, /neither JSON nor an SVG/],
    ["a well of elements", around(`${"<g>".repeat(5000)}${"</g>".repeat(5000)}`), /deep/],
  ])("%s is refused in words", (_, text, said) => {
    const read = sectionTextFromSvg(text);

    expect(read).toMatchObject({ ok: false, error: expect.stringMatching(said) });
  });

  test("a sheet cut off anywhere is refused, and never throws", () => {
    for (let end = 1; end < whole.trimEnd().length; end += 97) {
      const read = sectionTextFromSvg(whole.slice(0, end));

      expect(read.ok, `cut at ${end}`).toBe(false);
    }
    expect(sectionTextFromSvg(whole.slice(0, whole.length / 2))).toMatchObject({
      error: expect.stringMatching(/in the middle/),
    });
  });

  test("the editor says it as a problem of the file", () => {
    expect(readDrawing(around("<g/>"))).toMatchObject({
      ok: false,
      error: [{ path: "", expected: expect.stringMatching(/^an SVG that/) }],
    });
  });

  test("a drawing edited into nonsense is refused by the document's own reader", () => {
    const read = readDrawing(whole.replace('"bore": 0.034', '"bore": 34'));

    expect(read).toMatchObject({ ok: false, error: [{ path: expect.stringMatching(/bore$/) }] });
  });
});

describe("a sheet of ours", () => {
  test("opens with a byte order mark, other quotes, another order of attributes, a prefix, or CDATA", () => {
    const text = writeSection(loopedSupply());
    const inner = text.replace(/&/g, "&amp;").replace(/</g, "&lt;");
    const spelled: Readonly<Record<string, string>> = { '"': "&quot;", "'": "&apos;", S: "&#83;", t: "&#x74;" };
    const written = [
      `\uFEFF${whole}`,
      around(`<metadata  class='x' id = 'holdwater-section' >${inner}</metadata >`),
      `<svg:svg xmlns:svg="http://www.w3.org/2000/svg"><svg:metadata id="holdwater-section">${inner}</svg:metadata></svg:svg>`,
      holding(`<![CDATA[${text}]]>`),
      holding([...text].map((letter) => spelled[letter] ?? letter).join("")),
    ];

    for (const each of written) expect(sectionTextFromSvg(each)).toEqual({ ok: true, value: text });
  });

  test("random drawings come back the same", () => {
    for (let seed = 1; seed <= 40; seed++) {
      const drawn = randomSection({ seed });

      const opened = readDrawing(sheetOf(drawn, { running: null, powerCut: null, findings: [] }));

      if (!opened.ok) throw new Error(`seed ${seed}: ${JSON.stringify(opened.error)}`);
      expect(writeSection(opened.value), `seed ${seed}`).toBe(writeSection(drawn));
    }
  });

  test("a large file is walked in one go", () => {
    const filler = "<g><path d='M0 0'/></g>".repeat(100_000);

    expect(sectionTextFromSvg(around(`<metadata id="holdwater-section">{}</metadata>${filler}`))).toEqual({
      ok: true,
      value: "{}",
    });
  });
});
