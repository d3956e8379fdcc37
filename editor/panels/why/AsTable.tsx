import type { JSX, ReactNode } from "react";
import { wholeFigures } from "../wholeFigures.tsx";

export interface AsTableProps {
  readonly summary: string;
  readonly caption: string;
  readonly heads: readonly string[];
  /** the first cell heads its row */
  readonly rows: readonly (readonly ReactNode[])[];
}

/** A narrow slip breaks `4,290 L/h to 4,510 L/h` before the second figure, and nowhere else. */
const whole = (cell: ReactNode): ReactNode => (typeof cell === "string" ? wholeFigures(cell) : cell);

/** The numbers of a plot, for who would rather read. */
export function AsTable({ summary, caption, heads, rows }: AsTableProps): JSX.Element {
  return (
    <details className="as-table">
      <summary>{summary}</summary>
      <table className="grid-table">
        <caption className="hidden">{caption}</caption>
        <thead>
          <tr>
            {heads.map((head, k) => (
              <th scope="col" key={head} className={k === 0 ? "" : "figure"}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([head, ...cells], k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place along the plot
            <tr key={k}>
              <th scope="row">{whole(head)}</th>
              {cells.map((cell, c) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a cell is its column
                <td className="figure" key={c}>
                  {whole(cell)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
