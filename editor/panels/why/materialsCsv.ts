/** The materials list as comma-separated values, for a shop or a spreadsheet. A label comes from a file that anybody may
 * have written: one that begins like a formula is handed out as text (an apostrophe before it, which spreadsheets
 * take for "this is text"), so that opening the list runs nothing. */
import Papa from "papaparse";
import { costOf, type MaterialRow, type Section, totalsOf } from "../../../hydraulics/index.ts";
import { materialWords, pricedIn, shownPrice, sizeNames } from "../../sheet/materialWords.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { UnitSystem } from "../../sheet/units.ts";

export interface CsvOptions {
  readonly prices: ReadonlyMap<string, number>;
  readonly currency: string;
  readonly system: UnitSystem;
}

/** What a spreadsheet may take for a formula, blanks and signs of full width before it included. */
const formula = /^[\s\u00a0]*[=+\-@|\t\r＝＋－＠]/u;

const heads = ["kind", "what", "for", "amount", "detail", "number", "priced by", "price", "cost", "currency"] as const;

export function materialsCsv(section: Section, rows: readonly MaterialRow[], options: CsvOptions): string {
  const { prices, currency, system } = options;
  const sizes = sizeNames(section);
  const lines = rows.map((row) => {
    const { what, amount, detail } = materialWords(row, system, sizes);
    const cost = costOf(row, prices);
    const price = prices.get(row.key);
    const { word, per } = pricedIn(row.priced, system);
    return [
      row.group,
      what,
      row.parts.map((id) => partNameById(section, id)).join(", "),
      amount,
      detail,
      Number((row.amount / per).toFixed(3)),
      word,
      price === undefined ? "" : shownPrice(price, per),
      cost === null ? "" : Number(cost.toFixed(2)),
      currency,
    ];
  });
  const { total, unpriced } = totalsOf(rows, prices);
  const sum = [
    "total",
    unpriced > 0 ? `without ${unpriced} rows that have no price` : "",
    "",
    "",
    "",
    "",
    "",
    "",
    Number(total.toFixed(2)),
    currency,
  ];
  return Papa.unparse([[...heads], ...lines, sum], { escapeFormulae: formula, newline: "\r\n" });
}
