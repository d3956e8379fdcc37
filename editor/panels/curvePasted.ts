/** What a spreadsheet or a maker's sheet gives to a field of the curve's table. */
import { most } from "../../hydraulics/index.ts";

/** A row of one figure, or of a flow and a head. */
export type PastedRow = readonly [first: string, second?: string];

/** The rows of a pasted table; null where it is none, and a single figure stays with its field.
 * Columns part at tabs and semicolons; two bare numbers also at a slash or a space. A first row without a digit is its
 * heading. */
export function curvePasted(text: string): readonly PastedRow[] | null {
  const lines = text.split(/\r\n?|\n/).filter((line) => line.trim() !== "");
  const rows = lines.slice(/\d/.test(lines[0] ?? "") ? 0 : 1).map(cellsOf);
  const width = rows[0]?.length ?? 0;
  if (width > 2 || rows.length > most.curvePoints || rows.length * width < 2) return null;
  return rows.every((row) => row.length === width)
    ? rows.map(([first = "", second]) => (second === undefined ? [first] : [first, second]))
    : null;
}

function cellsOf(line: string): string[] {
  if (/[\t;]/.test(line)) return line.split(/[\t;]/).map((cell) => cell.trim());
  const two = /^\s*([\d.,]+)\s*[/ ]\s*([\d.,]+)\s*$/.exec(line);
  return two ? [two[1] as string, two[2] as string] : [line.trim()];
}
