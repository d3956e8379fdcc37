/** Rows of text as columns: the first column to the left, figures to the right. A column that says nothing
 * in any row is left out. */
export function columns(heads: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const used = heads
    .map((_, i) => i === 0 || rows.some((row) => (row[i] ?? "") !== ""))
    .map((keep, i) => (keep ? i : -1));
  const kept = used.filter((i) => i >= 0);
  const all = [heads, ...rows].map((row) => kept.map((i) => row[i] ?? ""));
  const widths = kept.map((_, i) => Math.max(...all.map((row) => widthOf(row[i] as string))));
  return all.map((row) =>
    row
      .map((cell, i) => pad(cell, widths[i] as number, i > 0))
      .join("  ")
      .trimEnd(),
  );
}

const widthOf = (text: string): number => [...text].length;

function pad(cell: string, width: number, toTheRight: boolean): string {
  const space = " ".repeat(Math.max(0, width - widthOf(cell)));
  return toTheRight ? space + cell : cell + space;
}
