/** What to buy for the drawing, as a group of the sheet's tables: the slip's own list, its parts by their numbers. Prices
 * stand beside it only where they were given. */
import { costOf, type MaterialRow, materialsList, totalsOf } from "../../../hydraulics/index.ts";
import { plainText } from "../../scene/plainText.ts";
import { textWidth } from "../../scene/textWidth.ts";
import { type MaterialWords, materialWords, pricedIn, shownPrice, sizeNames } from "../../sheet/materialWords.ts";
import { formatPrice, type UnitSystem } from "../../sheet/units.ts";
import type { Cell, TableItem } from "../tableColumn.ts";
import { wholeText } from "../wholeText.ts";
import { apart, bold, paragraph, widest } from "./cells.ts";
import type { GroupIn } from "./group.ts";

/** As the user typed them, by a row's key. */
export interface Bought {
  readonly prices?: ReadonlyMap<string, number>;
  /** m of pipe as sold */
  readonly stock?: ReadonlyMap<string, number>;
}

/** mm that what is said of a row stands in */
const indent = 2;

export const materialsGroup =
  ({ prices = new Map(), stock = new Map() }: Bought = {}): GroupIn =>
  ({ section, site, system }, numbers, width) => {
    const rows = materialsList(section, { stock });
    const sizes = sizeNames(section);
    const said = rows.map((row) => materialWords(row, system, sizes));
    const costs = rows.map((row) => costText(costOf(row, prices)));
    const costWidth = widest(costs);
    const amountEdge = width - (costWidth > 0 ? costWidth + apart : 0);
    const room = amountEdge - widest(said.map(({ amount }) => amount)) - apart;
    const numbersOf = ({ parts }: MaterialRow): string =>
      [...new Set(parts)].flatMap((id) => numbers.get(id) ?? []).join(", ");
    const items = rows.map((row, i): TableItem => {
      const { what, amount, detail } = said[i] as MaterialWords;
      const [first = "", ...more] = wholeText(what, room, bold);
      const parts = `for ${numbersOf(row)}`;
      const price = priceText(row, prices, system);
      const end = textWidth(first, bold.size, bold.weight) + apart;
      // Where there is no more to say, its parts' numbers stand on the same line.
      const isShort = detail === "" && price === "" && more.length === 0 && end + widest([parts]) <= room;
      return [
        [
          { x: 0, text: first, weight: 500 },
          ...(isShort ? [{ x: end, text: parts, fill: "soft" } as const] : []),
          { x: amountEdge, text: amount, anchor: "end" },
          ...((costs[i] as string) === "" ? [] : [{ x: width, text: costs[i] as string, anchor: "end" } as const]),
        ],
        ...more.map((text): readonly Cell[] => [{ x: 0, text, weight: 500 }]),
        ...(isShort ? [] : soft([parts, detail, price].filter(Boolean).join(" · "), width, indent)),
      ];
    });
    const basis = "Lengths are the drawing's, from axis to axis; the lengths that pipe is sold in are common practice.";
    return {
      key: "materials",
      title: "To buy",
      items: rows.length === 0 ? [] : [...items, ...total(rows, prices, width, site.currency), soft(basis, width)],
      gap: 0.6,
    };
  };

const costText = (cost: number | null): string => (cost === null ? "" : formatPrice(cost, ""));
const priceText = ({ key, priced }: MaterialRow, prices: ReadonlyMap<string, number>, system: UnitSystem): string => {
  const price = prices.get(key);
  if (price === undefined) return "";
  const { word, per } = pricedIn(priced, system);
  return `at ${shownPrice(price, per)} ${word}`;
};
const soft = (text: string, width: number, indented = 0): TableItem =>
  paragraph(text, width, { indent: indented, fill: "soft" });

function total(
  rows: readonly MaterialRow[],
  prices: ReadonlyMap<string, number>,
  width: number,
  currency: string,
): readonly TableItem[] {
  const sum = totalsOf(rows, prices);
  if (sum.priced === 0) return [];
  const left = sum.unpriced > 0 ? `${sum.unpriced} rows have no price and are not in it.` : "";
  return [
    [
      [
        { x: 0, text: "Total", weight: 500 },
        { x: width, text: formatPrice(sum.total, plainText(currency)), anchor: "end", weight: 500 },
      ],
      ...soft(left, width, indent),
    ],
  ];
}
