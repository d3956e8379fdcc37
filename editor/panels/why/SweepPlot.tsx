/** One figure of a sweep against the number that changes. */
import type { JSX } from "react";
import type { SweepFigures, SweepRow, SweptField } from "../../../hydraulics/index.ts";
import type { UnitSystem } from "../../sheet/units.ts";
import { Plot } from "./Plot.tsx";
import { scaleOf, sweptScale } from "./shownAs.ts";

export const plotted = [
  ["flow", "delivered flow"],
  ["velocity", "velocity"],
  ["margin", "margin of the return"],
  ["cost", "cost of a year"],
] as const;
export type Plotted = (typeof plotted)[number][0];

export interface RowsProps {
  readonly rows: readonly SweepRow[];
  readonly field: SweptField | null;
  readonly units: UnitSystem;
}

export function SweepPlot({ rows, figure, field, units }: RowsProps & { readonly figure: Plotted }): JSX.Element {
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
