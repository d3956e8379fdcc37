/** What a vessel's outlets carry, by the level that stands in it, and what controls them there. */
import { type JSX, useMemo } from "react";
import type { Control, ReturnPoint, Section, Vessel, VesselReading } from "../../../hydraulics/index.ts";
import type { Job } from "../../worker/jobs.ts";
import { showQuantity } from "../quantity.ts";
import { useDesk } from "../useDesk.ts";
import { AsTable } from "./AsTable.tsx";
import { Plot, type PlotLine } from "./Plot.tsx";
import { scaleOf } from "./shownAs.ts";
import { useJob } from "./useJob.ts";

export interface ReturnPlotProps {
  readonly section: Section;
  readonly vessel: Vessel;
  readonly reading: VesselReading;
}

const controls: readonly (readonly [Control, string, PlotLine["ink"], readonly number[]])[] = [
  ["inlet", "inlet controls", "--waterline", []],
  ["outlet", "outlet controls", "--ink", [7, 3]],
  ["route", "route controls", "--soft", [3, 3]],
  ["rim", "sill controls", "--ink", [8, 3, 2, 3]],
  ["none", "nothing flows", "--soft", [1, 3]],
];

export const controlName = (control: Control): string =>
  ({ inlet: "inlet", outlet: "outlet", route: "route", rim: "sill", none: "—" })[control];

export function ReturnPlot({ section, vessel, reading }: ReturnPlotProps): JSX.Element | null {
  const units = useDesk((state) => state.view.units);
  const job = useMemo((): Job => ({ kind: "returnCurve", section, vessel: vessel.id }), [section, vessel.id]);
  const { answers } = useJob(job, { keep: true });
  const curve = answers.flatMap((answer) => (answer.kind === "returnCurve" ? answer.points : []));
  if (curve.length < 2) return null;
  const points: readonly (ReturnPoint & { readonly here?: true })[] = [
    // Where nothing flows yet nothing controls; the line begins with what will.
    ...curve.map((point, k) =>
      point.control === "none" ? { ...point, control: curve[k + 1]?.control ?? "none" } : point,
    ),
    ...(reading.inflow > 0
      ? [{ flow: reading.inflow, level: reading.level, control: reading.control, here: true } as const]
      : []),
  ].sort((a, b) => a.flow - b.flow || a.level - b.level);
  const flow = scaleOf("flow", units);
  const level = scaleOf("level", units);
  const lines: PlotLine[] = controls.flatMap(([control, label, ink, dash]) => {
    const mine = (k: number): boolean => points[k]?.here !== true && points[k]?.control === control;
    if (!points.some((_, k) => mine(k))) return [];
    // One point more on each side, so that the line has no holes where control changes.
    const values = points.map((point, k) =>
      !point.here && (mine(k) || mine(k + 1) || mine(k - 1)) ? level.shown(point.level) : null,
    );
    return [{ label, values: filled(values, points), ink, ...(dash.length > 0 ? { dash } : {}) }];
  });
  return (
    <>
      <Plot
        words="Level in the vessel against what its outlets carry, with the running state"
        x={points.map((point) => flow.shown(point.flow))}
        xLabel={`outlets carry, ${flow.unit}`}
        yLabel={`level, ${level.unit}`}
        lines={[
          ...lines,
          {
            label: "rim",
            values: points.map(() => level.shown(vessel.rimLevel)),
            ink: "--soft",
            dash: [2, 3],
            width: 1,
          },
          ...(reading.inflow > 0
            ? [
                {
                  label: "running",
                  values: points.map((point) => (point.here ? level.shown(point.level) : null)),
                  ink: "--ink",
                  dots: 9,
                  loose: true,
                } as const,
              ]
            : []),
        ]}
        height={150}
      />
      <AsTable
        summary="What the return carries, as a table"
        caption="Flow that the outlets carry by level, and what controls"
        heads={["water at", "carries", "controlled at"]}
        rows={curve.map((point) => [
          showQuantity("level", point.level, units),
          showQuantity("flow", point.flow, units),
          controlName(point.control),
        ])}
      />
    </>
  );
}

/** The running point lies between two of the curve's; the line goes on through it. */
function filled(
  values: readonly (number | null)[],
  points: readonly (ReturnPoint & { readonly here?: true })[],
): readonly (number | null)[] {
  return values.map((value, k) => {
    const a = values[k - 1];
    const b = values[k + 1];
    return value === null && points[k]?.here && typeof a === "number" && typeof b === "number" ? (a + b) / 2 : value;
  });
}
