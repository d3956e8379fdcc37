/** One number of the drawing over a range, or a pipe in every size that is sold: what becomes of flow, velocity, margin,
 * cost and verdict. Solved beside the page, row by row; it can be stopped. */
import { type JSX, useMemo, useState } from "react";
import {
  numberFields,
  type PartId,
  type Section,
  type SweepFigures,
  type SweepRange,
  type SweepRow,
  type SweptField,
  seriesFor,
  siteOf,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { formatMoney, formatNumber, type UnitSystem } from "../../sheet/units.ts";
import { inOrder } from "../../state/inOrder.ts";
import type { Job } from "../../worker/jobs.ts";
import { ChoiceField } from "../ChoiceField.tsx";
import { sentenceOnPage } from "../onPage.ts";
import { readNumber, showQuantity } from "../quantity.ts";
import { TypedInput } from "../TypedInput.tsx";
import { useDesk, useProgram } from "../useDesk.ts";
import { Plot } from "./Plot.tsx";
import { readSwept, scaleOf, sweptField, sweptScale, sweptText } from "./shownAs.ts";
import { useJob } from "./useJob.ts";

const verdictWords = {
  geometry: "held by geometry",
  movingPart: "held by a moving part",
  drains: "drains",
  none: "no vessel",
} as const;

const plotted = [
  ["flow", "delivered flow"],
  ["velocity", "velocity"],
  ["margin", "margin of the return"],
  ["cost", "cost of a year"],
] as const;
type Plotted = (typeof plotted)[number][0];

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

interface RowsProps {
  readonly rows: readonly SweepRow[];
  readonly field: SweptField | null;
  readonly units: UnitSystem;
}

function SweepPlot({ rows, figure, field, units }: RowsProps & { readonly figure: Plotted }): JSX.Element {
  const along = field ? sweptScale(field.quantity, units) : scaleOf("bore", units);
  const flow = scaleOf("flow", units);
  const velocity = scaleOf("velocity", units);
  const up = {
    flow: { unit: flow.unit, of: (row: SweepFigures) => flow.shown(row.flow) },
    velocity: { unit: velocity.unit, of: (row: SweepFigures) => velocity.shown(row.velocity) },
    margin: { unit: "×", of: (row: SweepFigures) => row.margin },
    cost: { unit: "", of: (row: SweepFigures) => row.cost },
  }[figure];
  const word = plotted.find(([each]) => each === figure)?.[1] ?? "";
  // uPlot wants x to rise; a range may be given from high to low.
  const sorted = [...rows].sort((a, b) => a.value - b.value);
  const lines = [
    { label: word, values: sorted.map((row) => (row.ok ? up.of(row) : null)), ink: "--waterline", dots: 5 } as const,
    ...(figure === "margin"
      ? [{ label: "1.5, room to spare", values: sorted.map(() => 1.5), ink: "--part", dash: [5, 4], width: 1 } as const]
      : []),
  ];
  return (
    <Plot
      words={`${word} against ${field?.label ?? "size"}, the same numbers as the table below`}
      x={sorted.map((row) => along.shown(row.value))}
      xLabel={[field?.label ?? "bore", along.unit].filter(Boolean).join(", ")}
      yLabel={[word, up.unit].filter(Boolean).join(", ")}
      lines={lines}
      height={210}
    />
  );
}

interface SweepTableProps extends RowsProps {
  readonly section: Section;
  /** what the drawing has now, in SI; its row is marked */
  readonly asDrawn: number | null;
}

function SweepTable({ rows, field, section, units, asDrawn }: SweepTableProps): JSX.Element {
  const { currency } = siteOf(section);
  const isDrawn = (value: number): boolean => asDrawn !== null && Math.abs(value - asDrawn) < 1e-6;
  const watched = rows.flatMap((row) => (row.ok && row.velocityIn ? [row.velocityIn] : []))[0];
  const pipe = watched ? section.parts.get(watched) : undefined;
  return (
    <div className="scroll">
      <table className="grid-table sweep">
        <caption className="hidden">What becomes of the figures, row by row</caption>
        <thead>
          <tr>
            <th scope="col">{field?.label ?? "size, bore"}</th>
            <th scope="col" className="figure">
              delivered
            </th>
            <th scope="col" className="figure">
              velocity{pipe ? `, ${partName(pipe)}` : ""}
            </th>
            <th scope="col" className="figure">
              margin
            </th>
            <th scope="col" className="figure">
              a year
            </th>
            <th scope="col">in a power cut</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const label = field
              ? sweptText(field.quantity, row.value, units)
              : `${row.name}, ${showQuantity("bore", row.value, units)}`;
            if (!row.ok)
              return (
                <tr key={label} className="gap-row">
                  <th scope="row">{label}</th>
                  <td colSpan={5}>No drawing: {sentenceOnPage(row.reason, units)}.</td>
                </tr>
              );
            return (
              <tr key={label} className={isDrawn(row.value) ? "chosen" : undefined}>
                <th scope="row">
                  {label}
                  {isDrawn(row.value) ? <span className="hint"> as drawn</span> : null}
                </th>
                <td className="figure">{showQuantity("flow", row.flow, units)}</td>
                <td className="figure">{showQuantity("velocity", row.velocity, units)}</td>
                <td className="figure">{row.margin === null ? "—" : `${formatNumber(row.margin, 3, 2)} ×`}</td>
                <td className="figure">{row.cost === null ? "—" : formatMoney(row.cost, currency)}</td>
                <td>
                  <span className={row.verdict === "drains" ? "bad" : row.verdict === "geometry" ? "met" : "unmet"}>
                    {verdictWords[row.verdict]}
                  </span>
                  {row.failures > 0 ? (
                    <span className="bad">, {row.failures === 1 ? "1 failure" : `${row.failures} failures`}</span>
                  ) : null}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
