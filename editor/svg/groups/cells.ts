/** What the groups of the tables are set in. */
import { letters } from "../../scene/letters.ts";
import type { Role, Weight } from "../../scene/node.ts";
import { textWidth } from "../../scene/textWidth.ts";
import type { Cell, TableItem } from "../tableColumn.ts";
import { wholeText } from "../wholeText.ts";

export const normal = { size: letters.small, weight: 400 } as const;
export const bold = { ...normal, weight: 500 } as const;
/** mm between two columns of figures */
export const apart = 2.2;
/** where names begin, after the numbers */
export const nameX = 5;
export const numberCell = (number: number | undefined): Cell => ({
  x: 3.4,
  text: String(number ?? ""),
  anchor: "end",
  fill: "soft",
});

export function paragraph(text: string, width: number, { indent = 0, fill = "ink" as Role } = {}): TableItem {
  return wholeText(text, width - indent, normal).map((line): readonly Cell[] => [{ x: indent, text: line, fill }]);
}

export const widest = (texts: readonly string[], weight: Weight = 400): number =>
  Math.max(0, ...texts.map((text) => textWidth(text, normal.size, weight)));
