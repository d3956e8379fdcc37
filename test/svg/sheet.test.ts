/** What stands on a printed sheet: XML that draws and nothing else, at the scale it says. */
import { describe, expect, test } from "vitest";
import { readDrawing } from "../../editor/state/files/readDrawing.ts";
import { sectionTextFromSvg } from "../../editor/svg/documentInside.ts";
import { largestScale } from "../../editor/svg/write.ts";
import { siteOf, writeSection } from "../../hydraulics/index.ts";
import { designs, drawingsIn, readDrawing as readFrom, samples } from "../scenarios/readDrawing.ts";
import { loopedSupply, note, pipe, pond, pump, returnPipe, section, vessel } from "../support/builders.ts";
import { allElements, parseXml, type XmlElement } from "../support/xml.ts";
import { sheetOf, strangersIn } from "./sheet.ts";

const drawings = drawingsIn(designs, samples);

const wordsOf = (root: XmlElement): readonly string[] =>
  allElements(root)
    .filter(({ name }) => name === "text")
    .map(({ text }) => text);

describe("every drawing of the scenarios and samples", () => {
  test("there are drawings to look at", () => {
    expect(drawings.length).toBeGreaterThanOrEqual(13);
  });

  test.each(drawings)("%s becomes a well-formed sheet that draws and nothing else", (file) => {
    const root = parseXml(sheetOf(readFrom(file)));

    expect(strangersIn(root)).toEqual([]);
    expect(wordsOf(root).filter((words) => /NaN|undefined|Infinity|\[object/.test(words))).toEqual([]);
    expect(wordsOf(root).length).toBeGreaterThan(40);
  });

  test.each(drawings)("%s opens again from its sheet as it was", (file) => {
    const drawn = readFrom(file);

    const opened = readDrawing(sheetOf(drawn));

    expect(opened).toEqual({ ok: true, value: drawn });
  });

  test.each(drawings)("the words of %s stay on the paper", (file) => {
    for (const paper of ["A4", "A3", "Letter"] as const) {
      const root = parseXml(sheetOf(readFrom(file), { paper }));
      const [, , width, height] = (root.attributes.get("viewBox") ?? "").split(" ").map(Number) as [
        number,
        number,
        number,
        number,
      ];
      const outside = allElements(root).filter(({ name, attributes }) => {
        if (name !== "text" || attributes.has("transform")) return false;
        const x = Number(attributes.get("x"));
        const long = Number(attributes.get("textLength") ?? 0);
        const anchor = attributes.get("text-anchor") ?? "start";
        const left = anchor === "start" ? x : anchor === "end" ? x - long : x - long / 2;
        const y = Number(attributes.get("y"));
        return left < 0 || left + long > width || y < 0 || y > height;
      });

      expect(outside.map(({ text }) => text)).toEqual([]);
    }
  });
});

describe("the paper", () => {
  // ISO 216 for A4 and A3; 11 in by 8.5 in of 25.4 mm.
  test.each([
    ["A4", 297, 210],
    ["A3", 420, 297],
    ["Letter", 279.4, 215.9],
  ] as const)("%s lies, and a unit of the picture is a millimetre", (paper, width, height) => {
    const { attributes } = parseXml(sheetOf(section([pond()]), { paper }));

    expect(attributes.get("width")).toBe(`${width}mm`);
    expect(attributes.get("height")).toBe(`${height}mm`);
    expect(attributes.get("viewBox")).toBe(`0 0 ${width} ${height}`);
  });

  // The pond's walls: 3 m apart, 0.85 m tall.
  test.each([
    [20, 150, 42.5],
    [50, 60, 17],
    [100, 30, 8.5],
  ])("at 1:%d a pond 3 m wide is drawn %d mm wide and %d mm tall", (scale, width, height) => {
    const root = parseXml(sheetOf(loopedSupply(), { scale, paper: "A3" }));

    const outlines = allElements(root)
      .filter(({ name }) => name === "polyline")
      .map(({ attributes }) => extentOf(attributes.get("points") ?? ""));

    expect(outlines.some((box) => Math.abs(box.width - width) < 0.01 && Math.abs(box.height - height) < 0.01)).toBe(
      true,
    );
    expect(wordsOf(root).some((words) => words.includes(`1:${scale} on A3`))).toBe(true);
  });

  test("the scale is a usual one, the largest that fits", () => {
    const options = {
      section: loopedSupply(),
      running: null,
      powerCut: null,
      findings: [],
      system: "metric",
      theme: "print",
    } as const;

    expect([20, 25, 50]).toContain(largestScale({ ...options, paper: "A4" }));
    expect(largestScale({ ...options, paper: "A3" })).toBeLessThanOrEqual(largestScale({ ...options, paper: "A4" }));
  });

  test("the same drawing gives the same sheet, letter for letter", () => {
    expect(sheetOf(loopedSupply())).toBe(sheetOf(loopedSupply()));
  });
});

function extentOf(points: string): { readonly width: number; readonly height: number } {
  const places = points.split(" ").map((place) => place.split(",").map(Number) as [number, number]);
  const xs = places.map(([x]) => x);
  const ys = places.map(([, y]) => y);
  return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) };
}

describe("the words on the sheet", () => {
  test("cautions, verdict, figures of the pipes and the filled weight are there", () => {
    const words = wordsOf(parseXml(sheetOf(loopedSupply()))).join(" ");

    for (const said of [
      /residual-current protection/,
      /licensed electrician/,
      /local code/,
      /small children/,
      /air gap/,
      /backflow/,
      /not a licensed design/,
      /Holds its water/,
      /\d kg filled/,
      /\d L\/h/,
      /\d m\/s/,
    ])
      expect(words).toMatch(said);
  });

  test("feet and gallons where they are asked for", () => {
    const words = wordsOf(parseXml(sheetOf(loopedSupply(), { system: "us", paper: "Letter" }))).join(" ");

    expect(words).toMatch(/\d gph/);
    expect(words).toMatch(/\d lb filled/);
    expect(words).toMatch(/levels in feet/);
  });

  test("a drawing with nothing in it still has its frame, cautions and document", () => {
    const root = parseXml(sheetOf(section([])));

    expect(strangersIn(root)).toEqual([]);
    expect(wordsOf(root).join(" ")).toMatch(/air gap/);
  });

  test("an unsolved drawing is drawn without figures", () => {
    const root = parseXml(sheetOf(loopedSupply(), { running: null, powerCut: null, findings: [] }));

    expect(strangersIn(root)).toEqual([]);
    expect(wordsOf(root).join(" ")).not.toMatch(/\d L\/h/);
  });
});

const hostile = [
  `</text><script>alert(1)</script>`,
  `" onload="alert(1)`,
  `]]></metadata><foreignObject/>`,
  `<!-- & &amp; &#x3c;script&gt; -->`,
  `'><image href="https://example.invalid/x.png"/>`,
  `<!DOCTYPE svg [<!ENTITY a "b">]>`,
  `\u{1f41f} fish, \u00ad soft, e\u0301, \u6c34`,
  `\\u003c/metadata\\u003e`,
];

describe("hostile words", () => {
  test.each(hostile)("%j in title, label, note and nominal stay words", (words) => {
    const drawn = section(
      [
        pond({ label: words }),
        vessel({ label: words }),
        pump({ label: words }),
        pipe({ label: words, nominal: words }),
        returnPipe({ label: words }),
        note({ text: words }),
      ],
      { title: words, site: { ...siteOf(section([])), currency: words.slice(0, 8) } },
    );

    const svg = sheetOf(drawn, { date: words });
    const root = parseXml(svg);

    expect(strangersIn(root)).toEqual([]);
    expect(sectionTextFromSvg(svg)).toMatchObject({ ok: true });
    const opened = readDrawing(svg);
    if (!opened.ok) throw new Error(JSON.stringify(opened.error));
    expect(writeSection(opened.value)).toBe(writeSection(drawn));
  });

  // The document's reader lets no such letters in; the writer must not count on that.
  test("controls and half letters make no broken sheet", () => {
    const words = "\u0000\u0008\u000b\u001b[31m \ud800 lone \u202ereversed\u2066 \ufffe\uffff \u2028line";

    const root = parseXml(
      sheetOf(section([pond({ label: words }), note({ text: words })], { title: words }), { date: words }),
    );

    expect(strangersIn(root)).toEqual([]);
  });

  // Bidirectional controls as Unicode Standard Annex 9 lists them, line and paragraph separators, C1 controls.
  test("nothing on a sheet turns the direction of writing or commands a terminal, and the drawing inside is as it was", () => {
    const marks = "\u061c\u200e\u200f\u2028\u2029\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u0085\u009b";
    const words = `pool${[...marks].join("x")}end`;
    const drawn = section([pond({ label: words }), note({ text: words })], { title: words });

    const svg = sheetOf(drawn, { date: words });

    expect([...marks].filter((mark) => svg.includes(mark))).toEqual([]);
    expect(readDrawing(svg)).toEqual({ ok: true, value: drawn });
  });
});
