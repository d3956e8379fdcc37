/** Levels along a pipe: its axis, the hydraulic grade line, and where the pressure is below the atmosphere. */
import type { JSX } from "react";
import type { GradePoint, PipeReading } from "../../../hydraulics/index.ts";
import { withCrossings } from "../../scene/withCrossings.ts";
import { showQuantity } from "../quantity.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import { AsTable } from "./AsTable.tsx";
import { Plot } from "./Plot.tsx";
import { scaleOf } from "./shownAs.ts";

export function LevelsPlot({ reading }: { readonly reading: PipeReading }): JSX.Element | null {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const drawn = useDesk((state) => state.view.gradeLine);
  if (reading.gradeLine.length < 2 || reading.flow === 0) return null;
  const points = withCrossings(reading.gradeLine);
  const length = scaleOf("length", units);
  const level = scaleOf("level", units);
  const under = ({ grade, z }: GradePoint): boolean => grade !== null && grade < z + 1e-9;
  const suction = points.some(({ grade, z }) => grade !== null && grade < z - 1e-6);
  const of = (point: GradePoint): string => showQuantity("level", point.z, units);
  return (
    <>
      <Plot
        words={`Levels along the pipe: its axis and the hydraulic grade line.${suction ? " Part of it runs below the pressure of the atmosphere." : ""}`}
        x={points.map(({ at }) => length.shown(at))}
        xLabel={`along the pipe, ${length.unit}`}
        yLabel={`level, ${level.unit}`}
        lines={[
          { label: "axis", values: points.map(({ z }) => level.shown(z)), ink: "--ink" },
          {
            label: "grade line",
            values: points.map(({ grade }) => (grade === null ? null : level.shown(grade))),
            ink: "--waterline",
            dash: [6, 3],
          },
          ...(suction
            ? [
                {
                  label: "below the atmosphere",
                  values: points.map((point) => (under(point) ? level.shown(point.z) : null)),
                  ink: "--part",
                  width: 4,
                } as const,
              ]
            : []),
        ]}
        height={150}
      />
      <AsTable
        summary="These levels as a table"
        caption="Axis, grade line and pressure along the pipe"
        heads={["along", "axis", "grade line", "pressure"]}
        rows={reading.gradeLine.map((point) => [
          showQuantity("length", point.at, units),
          of(point),
          point.grade === null ? "part full" : showQuantity("level", point.grade, units),
          point.grade === null ? "—" : showQuantity("head", point.grade - point.z, units),
        ])}
      />
      <p>
        <button
          type="button"
          className="word"
          aria-pressed={drawn}
          onClick={() => desk.look((view) => ({ ...view, gradeLine: !view.gradeLine }))}
        >
          {drawn ? "Take the grade line off the sheet" : "Draw the grade line on the sheet"}
        </button>
      </p>
    </>
  );
}
