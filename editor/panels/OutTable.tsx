import type { JSX, MouseEvent } from "react";

export interface OutRow {
  readonly cells: readonly (JSX.Element | null)[];
  /** what the word that takes the row out is called; null where the row must stay */
  readonly out: { readonly label: string; readonly act: () => void } | null;
}

/** Rows of one part, each of its own lines to type in, and a word that takes the row out. */
export function OutTable({
  heads,
  rows,
}: {
  readonly heads: readonly string[];
  /** a row is its place */
  readonly rows: readonly OutRow[];
}): JSX.Element {
  return (
    <table>
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head}>{head}</th>
          ))}
          <th>
            <span className="hidden">change</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ cells, out }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place
          <tr key={index}>
            {cells.map((cell, column) => (
              <td key={heads[column]}>{cell}</td>
            ))}
            <td>
              {out ? (
                <button
                  type="button"
                  className="word"
                  aria-label={out.label}
                  onClick={(event) => takeOut(event, index, out.act)}
                >
                  take out
                </button>
              ) : null}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A row that goes takes the focus in it along: it comes to the row that stands there then, else to the word below. */
function takeOut({ currentTarget }: MouseEvent<HTMLElement>, index: number, act: () => void): void {
  const home = currentTarget.closest("fieldset");
  act();
  requestAnimationFrame(() => {
    if (!home?.isConnected || (document.activeElement ?? document.body) !== document.body) return;
    const outs = home.querySelectorAll<HTMLElement>("tbody button");
    const next = outs[Math.min(index, outs.length - 1)] ?? [...home.querySelectorAll("button")].at(-1);
    next?.focus();
  });
}
