/** What to buy, on the sheet: every row of the list, by number, in the reader's units, with prices where they were given. */
import { describe, expect, test } from "vitest";
import { materialWords } from "../../editor/sheet/materialWords.ts";
import { type SheetOptions, sheetSvg, sheetsOf } from "../../editor/svg/write.ts";
import { costOf, materialsList, type Section, totalsOf } from "../../hydraulics/index.ts";
import { lessons } from "../../samples/lessons.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { note, pipe, pond, section, vessel } from "../support/builders.ts";
import { allElements, parseXml, type XmlElement } from "../support/xml.ts";
import { overlaps, wordBoxes } from "./boxes.ts";
import { strangersIn } from "./sheet.ts";

const optionsOf = (drawn: Section, more: Partial<SheetOptions> = {}): SheetOptions => ({
  ...{ section: drawn, running: null, powerCut: null, findings: [], system: "metric", paper: "A4", theme: "print" },
  ...more,
});
const sheetOf = (drawn: Section, more: Partial<SheetOptions> = {}): XmlElement =>
  parseXml(sheetSvg(optionsOf(drawn, more)));
const textsOf = (root: XmlElement): readonly string[] =>
  allElements(root)
    .filter(({ name }) => name === "text")
    .map(({ text }) => text);
const said = (root: XmlElement): string => textsOf(root).join(" ").replace(/\s+/g, " ");

test.each(lessons.map(({ file }) => file))("all that %s is made of stands on its sheets, with its amount", (file) => {
  const drawn = readDrawing(`../../samples/${file}`);
  const rows = materialsList(drawn);

  const root = sheetOf(drawn);
  const words = said(root);

  expect(rows.length).toBeGreaterThan(5);
  for (const row of rows) {
    const { what, amount, detail } = materialWords(row, "metric", []);
    for (const each of [what, amount, detail]) expect(words).toContain(each);
  }
  expect(overlaps(wordBoxes(root))).toEqual([]);
  expect(strangersIn(root)).toEqual([]);
});

describe("by hand", () => {
  // A straight pipe of 1 m from wall to wall, 0.3 m over the vessel's base.
  const line = pipe({
    from: { part: "pond", z: -0.3, mouth: "side" },
    to: { part: "vessel", z: -0.3, mouth: "side" },
    route: [],
    nominal: "50 mm",
    bore: 0.044,
    material: "pvc",
  });
  const drawn = section([
    pond({ x: 0, width: 2 }),
    vessel({ x: 3, baseLevel: -0.5, rimLevel: 0.5, plan: { shape: "rectangle", width: 1, length: 1 }, media: [] }),
    line,
  ]);

  test("a metre of pipe leaves four of a length of five", () => {
    const words = said(sheetOf(drawn));

    expect(words).toContain("PVC-U pipe, 50 mm 1 × 5.00 m for 3 · 1.00 m drawn, 4.00 m left over");
    expect(words).toContain("vessel, 1 m by 1 m, 1 m high");
  });

  test("in feet and inches, too, a size keeps the name it is sold by", () => {
    const words = said(sheetOf(drawn, { system: "us", paper: "Letter" }));

    expect(words).toContain("PVC-U pipe, 50 mm");
    // 1 m is 3 ft 3.37 in.
    expect(words).toMatch(/vessel, 3 ft 3 3\/8 in by 3 ft 3 3\/8 in/);
    expect(words).not.toMatch(/\d m\b/);
  });

  test("no price is named where none was given, and a total where some were", () => {
    const bare = said(sheetOf(drawn));
    const key = materialsList(drawn).find(({ group }) => group === "pipe")?.key ?? "";
    const priced = said(sheetOf(drawn, { bought: { prices: new Map([[key, 12.5]]) } }));

    expect(bare).not.toMatch(/Total|price/);
    expect(priced).toMatch(/4\.00 m left over · at 12\.5 a length/);
    expect(priced).toMatch(/Total 12\.50/);
    expect(priced).toMatch(/rows have no price/);
  });

  test("lines add up to the total, which is the slip's, in a currency that is text and nothing else", () => {
    const rows = materialsList(drawn);
    const prices = new Map(rows.map(({ key }, i) => [key, 3.333 + i]));
    const root = sheetOf({ ...drawn, site: { ...drawn.site, currency: "<b>&" } }, { bought: { prices } });
    const words = said(root);

    const costs = rows.map((row) => costOf(row, prices) ?? 0);
    const { total } = totalsOf(rows, prices);
    expect(costs.reduce((sum, cost) => sum + cost, 0)).toBeCloseTo(total, 9);
    for (const cost of costs) expect(textsOf(root)).toContain(cost.toFixed(2));
    expect(words).toContain(`Total <b>& ${total.toFixed(2)}`);
    expect(words).not.toContain("have no price");
    expect(strangersIn(root)).toEqual([]);
    expect(overlaps(wordBoxes(root))).toEqual([]);
  });

  test("lengths that are sold in another measure are cut by it", () => {
    const key = materialsList(drawn).find(({ group }) => group === "pipe")?.key ?? "";

    expect(said(sheetOf(drawn, { bought: { stock: new Map([[key, 3]]) } }))).toContain("1 × 3.00 m");
  });
});

test("a sheet of nothing to buy has no list, and no second sheet for it", () => {
  const drawn = section([note({ text: "Only words" })]);

  expect(materialsList(drawn)).toEqual([]);
  expect(sheetsOf(optionsOf(drawn))).toHaveLength(1);
  expect(said(sheetOf(drawn))).not.toContain("To buy");
});
