/** Prices as people type them, and the list as a spreadsheet opens it. */
import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { materialsCsv } from "../../editor/panels/why/materialsCsv.ts";
import { readPrice } from "../../editor/panels/why/readPrice.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import { materialsList } from "../../hydraulics/materials/materialsList.ts";

const open = (): Section => {
  const read = readSection(readFileSync(new URL("../../samples/courtyard-bog.json", import.meta.url), "utf8"));
  if (!read.ok) throw new Error("courtyard-bog");
  return read.value;
};

test.each([
  ["12", 12],
  ["12.5", 12.5],
  ["12,50", 12.5],
  ["0,333", 0.333],
  [",5", 0.5],
  ["1234.50", 1234.5],
  ["1,234.50", 1234.5],
  ["1.234,50", 1234.5],
  ["1 234,50", 1234.5],
  ["1'234.50", 1234.5],
  ["1,234,567", 1234567],
  ["€ 12,50", 12.5],
  ["12.50 EUR", 12.5],
  ["+3", 3],
  ["0", 0],
] as const)("%s is read", (typed, price) => {
  expect(readPrice(typed, "EUR")).toEqual({ ok: true, value: price });
});

test.each([
  ["$12", "EUR", /counts in EUR.*another currency/],
  ["12 GBP", "€", /counts in €.*another currency/],
  ["12 €", "", /names no currency/],
  ["1,234", "EUR", /could be two numbers/],
  ["1.234", "EUR", /could be two numbers/],
  ["12,34,5", "EUR", /could be two numbers/],
  ["-3", "EUR", /can not be negative/],
  ["−3", "EUR", /can not be negative/],
  ["cheap", "EUR", /is no price/],
  ["12 per metre of 5", "EUR", /is no price/],
  ["99999999999", "EUR", /more than any pond costs/],
] as const)("%s is refused in words where the drawing counts in %s", (typed, currency, why) => {
  const read = readPrice(typed, currency);
  expect(read.ok ? "read" : read.error).toMatch(why);
});

test("a label that begins like a formula is handed out as text", () => {
  const section = open();
  const evil = ["=HYPERLINK(1)", "+1+2", "-2+3", "@SUM(A1)", "\t=1", "＝1+1", " =1", "|cmd"];
  for (const label of evil) {
    const supply = section.parts.get("supply" as PartId) as Part;
    const drawing = { ...section, parts: new Map(section.parts).set(supply.id, { ...supply, label }) };
    const text = materialsCsv(drawing, materialsList(drawing), { prices: new Map(), currency: "=1", system: "metric" });
    const cells = Papa.parse<string[]>(text).data.flat();
    expect(cells.some((cell) => cell.includes(label.trim()))).toBe(true);
    for (const cell of cells) expect(cell, JSON.stringify(cell)).not.toMatch(/^[\s\u00a0]*[=+\-@|＝＋－＠]/u);
  }
});

test("the file has every row, its numbers and the total", () => {
  const section = open();
  const rows = materialsList(section);
  const prices = new Map(rows.map(({ key }) => [key, 2] as const));
  const parsed = Papa.parse<string[]>(materialsCsv(section, rows, { prices, currency: "EUR", system: "metric" })).data;

  expect(parsed.length).toBe(rows.length + 2);
  expect(new Set(parsed.map((line) => line.length)).size).toBe(1);
  rows.forEach((row, k) => {
    expect(Number(parsed[k + 1]?.[5])).toBeCloseTo(row.amount, 2);
    expect(Number(parsed[k + 1]?.[8])).toBeCloseTo(2 * row.amount, 1);
  });
  const total = Number(parsed.at(-1)?.[8]);
  expect(total).toBeCloseTo(
    rows.reduce((sum, row) => sum + 2 * row.amount, 0),
    1,
  );
});

test("in feet and pounds the list prices by the foot and the pound, and costs the same", () => {
  const section = open();
  const rows = materialsList(section);
  const prices = new Map(rows.map(({ key }) => [key, 2] as const));
  const of = (system: "metric" | "us") =>
    Papa.parse<string[]>(materialsCsv(section, rows, { prices, currency: "", system })).data;
  const [metric, us] = [of("metric"), of("us")];

  rows.forEach(({ priced }, k) => {
    expect(us[k + 1]?.[8]).toBe(metric[k + 1]?.[8]);
    // A foot is 0.3048 m and a pound 0.45359237 kg by definition.
    const per = priced === "metre" ? 0.3048 : priced === "kilogram" ? 0.45359237 : 1;
    expect(Number(us[k + 1]?.[7])).toBeCloseTo(2 * per, 6);
  });
});
