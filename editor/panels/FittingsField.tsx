import type { JSX } from "react";
import type { FittingEntry, FittingType, Pipe } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { setField } from "../state/actions/setField.ts";
import { fittingWords } from "./fields/pipeWords.ts";
import { OutTable } from "./OutTable.tsx";
import { readNumber, showNumber } from "./quantity.ts";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { useProgram } from "./useDesk.ts";

/** Fittings that the drawing does not show. */
export function FittingsField({ pipe }: { readonly pipe: Pipe }): JSX.Element {
  const { desk } = useProgram();
  const fittings = pipe.fittings ?? [];
  const change = (label: string, next: readonly FittingEntry[]): string | null =>
    desk.apply(
      setField(desk.get().section, [pipe.id], `${label} of ${partName(pipe)}`, (part) => {
        if (part.kind !== "pipe") return;
        if (next.length === 0) delete part.fittings;
        else part.fittings = next.map((entry) => ({ ...entry }));
      }),
    )
      ? null
      : takeRefusal(desk);
  const set = (index: number, entry: FittingEntry): string | null =>
    change(
      "Fittings",
      fittings.map((was, i) => (i === index ? entry : was)),
    );
  const typeOf = (entry: FittingEntry, index: number): JSX.Element => (
    <select
      aria-label={`Fitting ${index + 1}`}
      value={entry.type}
      onChange={(event) => {
        const type = event.target.value as FittingType;
        set(index, type === "other" ? { type, k: 1, count: entry.count } : { type, count: entry.count });
      }}
    >
      {fittingWords.map(([value, word]) => (
        <option key={value} value={value}>
          {word}
        </option>
      ))}
    </select>
  );
  const countOf = (entry: FittingEntry, index: number): JSX.Element => (
    <TypedInput
      bare
      label={`Count of fitting ${index + 1}`}
      text={showNumber(entry.count)}
      commit={(typed) => {
        const read = readNumber(typed);
        return read.ok ? set(index, { ...entry, count: Math.round(read.value) }) : read.error;
      }}
    />
  );
  const kOf = (entry: FittingEntry, index: number): JSX.Element | null =>
    entry.type === "other" ? (
      <TypedInput
        bare
        label={`K of fitting ${index + 1}`}
        text={showNumber(entry.k ?? 1)}
        commit={(typed) => {
          const read = readNumber(typed);
          return read.ok ? set(index, { ...entry, k: read.value }) : read.error;
        }}
      />
    ) : null;
  return (
    <fieldset className="table-field">
      <legend>Fittings not drawn</legend>
      {fittings.length > 0 ? (
        <OutTable
          heads={["fitting", "count", "K"]}
          rows={fittings.map((entry, index) => ({
            cells: [typeOf(entry, index), countOf(entry, index), kOf(entry, index)],
            out: {
              label: `Take out fitting ${index + 1}`,
              act: () =>
                void change(
                  "Take out a fitting",
                  fittings.filter((_, i) => i !== index),
                ),
            },
          }))}
        />
      ) : null}
      <button
        type="button"
        className="word"
        onClick={() => change("Add a fitting", [...fittings, { type: "elbow90", count: 1 }])}
      >
        Add a fitting
      </button>
    </fieldset>
  );
}
