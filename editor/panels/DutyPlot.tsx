/** A pump's curve against the system's, both by the solver's own laws, with the point where they meet, the spread of the
 * uncertain inputs, and the same numbers as a table. */
import { type JSX, useMemo } from "react";
import { curveHead, type Pump, type Running, type Section } from "../../hydraulics/index.ts";
import type { Job, JobAnswer, SystemCurvePoint } from "../worker/jobs.ts";
import { showQuantity } from "./quantity.ts";
import { useDesk } from "./useDesk.ts";
import { wholeFigures } from "./wholeFigures.tsx";
import { Plot, type PlotLine } from "./why/Plot.tsx";
import { scaleOf } from "./why/shownAs.ts";
import { useJob } from "./why/useJob.ts";

export interface DutyPlotProps {
  readonly section: Section;
  readonly pump: Pump;
  readonly running: Running | null;
  /** how many flows the system is asked at */
  readonly points?: number;
  readonly height?: number;
}

/** ± of the pump's head in the range of the delivered flow */
const headSpread = 0.1;

export function DutyPlot({ section, pump, running, points = 22, height = 176 }: DutyPlotProps): JSX.Element | null {
  const units = useDesk((state) => state.view.units);
  const job = useMemo((): Job => ({ kind: "systemCurve", section, pump: pump.id, points }), [section, pump.id, points]);
  const { answers, state, why } = useJob(curveHead(pump, 0) === null ? null : job, { keep: true });
  const system = answers.flatMap(pointOf);
  const reading = running?.converged ? running.pumps.get(pump.id) : undefined;
  if (curveHead(pump, 0) === null) return null;
  const duty = reading && reading.flow > 0 ? reading : null;
  const asked = system.length > 0 ? system.map(({ flow }) => flow) : grid(pump, points);
  const flows = [...new Set([0, greatest(pump), ...asked, ...(duty ? [duty.flow, ...duty.flowRange] : [])])].sort(
    (a, b) => a - b,
  );
  const head = scaleOf("head", units);
  const flow = scaleOf("flow", units);
  const inHead = (value: number | null): number | null => (value === null ? null : head.shown(value));
  const curve = flows.map((q) => curveHead(pump, q));
  const systemAt = (of: "head" | "low" | "high") => flows.map((q) => inHead(between(system, q, of)));
  const floor = Math.min(0, ...system.map((p) => inHead(p.head) ?? 0));
  const top = Math.max(...curve.map((h) => h ?? 0)) * (1 + headSpread);
  const standIn = pump.curve === undefined;
  const lines: PlotLine[] = [
    {
      label: standIn ? "pump, a stand-in curve" : "pump, by its maker's points",
      values: curve.map((h) => positive(inHead(h))),
      ink: "--ink",
      ...(standIn ? { dash: [6, 4] } : {}),
    },
    {
      label: "",
      values: curve.map((h) => positive(inHead((h ?? 0) * (1 + headSpread)))),
      ink: "--hair",
      width: 0.5,
      silent: true,
    },
    {
      label: "",
      values: curve.map((h) => positive(inHead((h ?? 0) * (1 - headSpread)))),
      ink: "--hair",
      width: 0.5,
      silent: true,
    },
    { label: "system", values: systemAt("head"), ink: "--waterline", width: 2 },
    { label: "", values: systemAt("high"), ink: "--water", width: 0.5, silent: true },
    { label: "", values: systemAt("low"), ink: "--water", width: 0.5, silent: true },
    ...(standIn
      ? [
          {
            label: "the same as a straight line",
            values: flows.map((q) => positive(inHead(curveHead(pump, q, true)))),
            ink: "--soft",
            dash: [2, 4],
            width: 1,
          } as const,
        ]
      : []),
    ...(duty && duty.flowRange[1] > duty.flowRange[0]
      ? [
          {
            label: "likely between",
            values: flows.map((q) => (q >= duty.flowRange[0] && q <= duty.flowRange[1] ? floor : null)),
            ink: "--ink",
            width: 5,
          } as const,
        ]
      : []),
    ...(duty
      ? [
          {
            label: "works here",
            values: flows.map((q) => (q === duty.flow ? inHead(duty.head) : null)),
            ink: "--ink",
            dots: 9,
            loose: true,
          } as const,
        ]
      : []),
  ];
  const shown = (q: number): string => showQuantity("flow", q, units);
  const shownHead = (h: number | null): string => (h === null ? "—" : showQuantity("head", h, units));
  const words = duty
    ? `Pump curve and system curve; they meet at ${shown(duty.flow)} and ${shownHead(duty.head)}.`
    : "Pump curve and system curve; no point where they meet.";
  const rows = system.filter((_, k) => k % 3 === 0);
  return (
    <>
      <Plot
        words={words}
        x={flows.map(flow.shown)}
        xLabel={`flow, ${flow.unit}`}
        yLabel={`head, ${head.unit}`}
        lines={lines}
        bands={[
          { label: "pump's head ± 10 %", between: [1, 2], ink: "--hair" },
          { label: "C ± 7 %, K ± 30 %", between: [4, 5], ink: "--water" },
        ]}
        height={height}
        yRange={[floor, head.shown(top)]}
      />
      {state === "broken" ? <p className="trouble">The system curve was not found: {why}.</p> : null}
      <details className="as-table">
        <summary>These curves as a table</summary>
        <table className="grid-table">
          <caption className="hidden">Head of the pump and head that the system needs, by flow</caption>
          <thead>
            <tr>
              <th scope="col">flow</th>
              <th scope="col" className="figure">
                pump lifts
              </th>
              <th scope="col" className="figure">
                system needs
              </th>
              <th scope="col" className="figure">
                likely
              </th>
            </tr>
          </thead>
          <tbody>
            {duty ? (
              <tr className="chosen">
                <th scope="row">{wholeFigures(`${shown(duty.flow)}, works here`)}</th>
                <td className="figure">{wholeFigures(shownHead(duty.head))}</td>
                <td className="figure">{wholeFigures(shownHead(duty.head))}</td>
                <td className="figure">{wholeFigures(`${shown(duty.flowRange[0])} to ${shown(duty.flowRange[1])}`)}</td>
              </tr>
            ) : null}
            {rows.map((point) => (
              <tr key={point.flow}>
                <th scope="row">{wholeFigures(shown(point.flow))}</th>
                <td className="figure">{wholeFigures(shownHead(Math.max(0, curveHead(pump, point.flow) ?? 0)))}</td>
                <td className="figure">{wholeFigures(shownHead(point.head))}</td>
                <td className="figure">{wholeFigures(`${shownHead(point.low)} to ${shownHead(point.high)}`)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}

const pointOf = (answer: JobAnswer): readonly SystemCurvePoint[] => (answer.kind === "point" ? [answer.point] : []);

/** Below no head a pump is pushed through; the plot ends there. */
const positive = (value: number | null): number | null => (value === null || value < 0 ? null : value);

const greatest = (pump: Pump): number => (pump.curve?.at(-1)?.[0] ?? pump.maxFlow ?? 0.001) * (pump.speed ?? 1);

const grid = (pump: Pump, points: number): readonly number[] => {
  const most = greatest(pump);
  return Array.from({ length: points }, (_, k) => (1.05 * most * k) / (points - 1));
};

/** Straight between two flows that were asked; the plot's other flows lie among them. */
function between(points: readonly SystemCurvePoint[], flow: number, of: "head" | "low" | "high"): number | null {
  const next = points.findIndex((point) => point.flow >= flow);
  const b = points[next];
  if (!b) return null;
  if (b.flow === flow) return b[of];
  const a = points[next - 1];
  const from = a?.[of];
  const to = b[of];
  if (!a || from === null || from === undefined || to === null) return null;
  return from + ((to - from) * (flow - a.flow)) / (b.flow - a.flow);
}
