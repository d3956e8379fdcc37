/** One number of the drawing over a range, or a pipe in every size that is sold: what becomes of flow, velocity, margin,
 * cost and verdict. Solved beside the page, row by row; it can be stopped. */
import { type JSX, useMemo, useState } from "react";
import {
  numberFields,
  type PartId,
  type Section,
  type SweepRange,
  type SweptField,
  seriesFor,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { inOrder } from "../../state/inOrder.ts";
import type { Job } from "../../worker/jobs.ts";
import { ChoiceField } from "../ChoiceField.tsx";
import { readNumber } from "../quantity.ts";
import { TypedInput } from "../TypedInput.tsx";
import { useDesk, useProgram } from "../useDesk.ts";
import { type Plotted, plotted, SweepPlot } from "./SweepPlot.tsx";
import { SweepTable } from "./SweepTable.tsx";
import { readSwept, sweptField } from "./shownAs.ts";
import { useJob } from "./useJob.ts";

export function WhatIfSlip({ section }: { readonly section: Section }): JSX.Element {
  const { desk } = useProgram();
  const about = useDesk((state) => state.view.about);
  const units = useDesk((state) => state.view.units);
  const [wanted, setWanted] = useState("");
  const [typed, setTyped] = useState<{ readonly key: string; readonly range: SweepRange } | null>(null);
  const [figure, setFigure] = useState<Plotted>("flow");
  const parts = inOrder(section).filter(({ kind }) => kind !== "note");
  const part = parts.find(({ id }) => id === about) ?? parts.find(({ kind }) => kind === "pipe") ?? parts[0];
  const id = part?.id ?? null;
  const fields = useMemo(
    () => [...numberFields(section, (id && section.parts.get(id)) || null), ...numberFields(section, null)],
    [section, id],
  );
  const series = part?.kind === "pipe" ? seriesFor(part) : [];
  const options: readonly (readonly [string, string])[] = [
    ...series.map((name) => [`size ${name}`, `sizes: ${name}`] as const),
    ...fields.map(
      (field) => [keyOf(field), field.part === null ? `${field.label} (whole drawing)` : field.label] as const,
    ),
  ];
  const key = options.some(([option]) => option === wanted) ? wanted : (options[0]?.[0] ?? "");
  const field = fields.find((each) => keyOf(each) === key);
  const sizes = key.startsWith("size ") ? key.slice(5) : null;
  const range = field ? (typed?.key === `${id} ${key}` ? typed.range : usualRange(field)) : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the range is made anew at every drawing; its numbers count
  const job = useMemo((): Job | null => {
    if (sizes !== null && id) return { kind: "sweep", section, over: { pipe: id, series: sizes }, watched: id };
    if (field && range) return { kind: "sweep", section, over: { field, range }, watched: id };
    return null;
  }, [section, id, sizes, field, range?.from, range?.to, range?.steps]);
  const { answers, state, why, stop } = useJob(job);
  const rows = answers.flatMap((answer) => (answer.kind === "row" ? [answer.row] : []));
  const total = answers.flatMap((answer) => (answer.kind === "row" ? [answer.total] : []))[0] ?? 0;
  if (!part) return <p>There is nothing on this sheet to change.</p>;
  const change = (next: Partial<SweepRange>): null => {
    if (range) setTyped({ key: `${id} ${key}`, range: { ...range, ...next } });
    return null;
  };
  const end = (label: string, which: "from" | "to"): JSX.Element | null =>
    field && range ? (
      <TypedInput
        label={label}
        text={sweptField(field.quantity, range[which], units)}
        commit={(text) => {
          const read = readSwept(field.quantity, text, units);
          return read.ok ? change({ [which]: read.value }) : read.error;
        }}
      />
    ) : null;
  return (
    <>
      <div className="choose">
        <ChoiceField
          label="Part"
          value={part.id}
          options={parts.map((each) => [each.id, partName(each)])}
          choose={(next) => desk.look((view) => ({ ...view, about: next as PartId }))}
        />
        <ChoiceField label="What changes" value={key} options={options} choose={setWanted} />
        {end("From", "from")}
        {end("To", "to")}
        {range ? (
          <TypedInput
            label="In so many steps"
            text={String(range.steps)}
            commit={(text) => {
              const read = readNumber(text);
              if (!read.ok) return read.error;
              const steps = Math.round(read.value);
              return steps >= 2 && steps <= 200 ? change({ steps }) : "From 2 to 200 steps.";
            }}
          />
        ) : null}
        <ChoiceField label="Plot of" value={figure} options={plotted} choose={(next) => setFigure(next as Plotted)} />
      </div>
      <div className="acts" aria-live="polite">
        {state === "running" ? (
          <>
            <span>{total > 0 ? `Solved ${rows.length} of ${total}.` : "Being solved."}</span>
            <progress value={rows.length} max={total || 1} aria-label="Rows solved" />
            <button type="button" className="word" onClick={stop}>
              Stop
            </button>
          </>
        ) : state === "stopped" ? (
          <span>
            Stopped after {rows.length} of {total || "so many"}.
          </span>
        ) : state === "broken" ? (
          <span className="trouble">That did not work: {why}.</span>
        ) : null}
      </div>
      {rows.length > 1 ? <SweepPlot rows={rows} figure={figure} field={field ?? null} units={units} /> : null}
      {rows.length > 0 ? (
        <SweepTable
          rows={rows}
          field={field ?? null}
          section={section}
          units={units}
          asDrawn={field ? field.value : part.kind === "pipe" ? part.bore : null}
        />
      ) : null}
    </>
  );
}

const keyOf = (field: SweptField): string => `${field.part ?? "drawing"} ${field.path.join(".")}`;

/** Half as much to half as much again; levels and places 0.3 m either way; within what the file takes. */
function usualRange({ quantity, value, range, whole }: SweptField): SweepRange {
  const clamp = (x: number): number => Math.min(range.max, Math.max(range.min, Number(x.toPrecision(4))));
  const steps = 13;
  if (range.max - range.min <= 1) return { from: range.min, to: range.max, steps: 11 };
  const at = value ?? 0;
  if (quantity === "level") return { from: clamp(at - 0.3), to: clamp(at + 0.3), steps };
  if (quantity === "temperature") return { from: 2, to: 30, steps: 15 };
  if (at === 0)
    return { from: range.min, to: clamp(range.min + (quantity === "number" ? 5 : 1)), steps: whole ? 6 : 11 };
  return { from: clamp(at * 0.5), to: clamp(at * 1.5), steps };
}
