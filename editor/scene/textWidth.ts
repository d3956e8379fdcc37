/** How wide a line of text is in the sheet's typeface, for both back ends, so that a label that fits on the
 * canvas fits in the file. Figures of this face are unequal unless `tnum` is asked for, which a canvas can not
 * do: columns of figures are set by their right edge. */
import { fontWidths, type WidthRow } from "./fontWidths.ts";
import type { Weight } from "./node.ts";

const tables = new Map<Weight, ReadonlyMap<number, number>>();

function tableOf(weight: Weight): ReadonlyMap<number, number> {
  const made = tables.get(weight);
  if (made) return made;
  const table = new Map<number, number>();
  for (const row of fontWidths[weight]) addRow(table, row);
  tables.set(weight, table);
  return table;
}

function addRow(table: Map<number, number>, { from, widths }: WidthRow): void {
  widths.forEach((width, i) => {
    if (width > 0) table.set(from + i, width);
  });
}

/** What another face would take for a letter this one lacks: a full square, the widest that is common. */
const missing = 1000;

/** Zero-width: joiners and combining marks. */
const isMark = (code: number): boolean =>
  (code >= 0x300 && code <= 0x36f) || (code >= 0x200b && code <= 0x200f) || (code >= 0xfe00 && code <= 0xfe0f);

/** Thousandths of the size, by weight and text: the same words come again in every frame. */
const known: Readonly<Record<Weight, Map<string, number>>> = { 400: new Map(), 500: new Map(), 600: new Map() };
const mostKnown = 5000;

/** In the unit of `size`. */
export function textWidth(text: string, size: number, weight: Weight): number {
  const widths = known[weight];
  let thousandths = widths.get(text);
  if (thousandths === undefined) {
    thousandths = measure(text, tableOf(weight));
    if (widths.size >= mostKnown) widths.clear();
    widths.set(text, thousandths);
  }
  return (thousandths * size) / 1000;
}

function measure(text: string, table: ReadonlyMap<number, number>): number {
  let thousandths = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) as number;
    thousandths += table.get(code) ?? (isMark(code) ? 0 : missing);
  }
  return thousandths;
}
