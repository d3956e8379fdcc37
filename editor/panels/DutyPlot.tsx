/** The pump's curve with the point it works at. */
import type { JSX } from "react";
import type { Pump, Running, Section } from "../../hydraulics/index.ts";
import { showQuantity } from "./quantity.ts";
import { useDesk } from "./useDesk.ts";

const width = 268;
const height = 118;
const margin = { left: 6, right: 6, top: 18, bottom: 16 };

export function DutyPlot({
  pump,
  running,
}: {
  readonly section: Section;
  readonly pump: Pump;
  readonly running: Running | null;
}): JSX.Element | null {
  const units = useDesk((state) => state.view.units);
  const curve = drawnCurve(pump);
  const reading = running?.converged ? running.pumps.get(pump.id) : undefined;
  if (curve.length < 2) return null;
  const maxFlow = curve.at(-1)?.[0] ?? 1;
  const maxHead = curve[0]?.[1] ?? 1;
  const x = (flow: number): number => margin.left + (flow / maxFlow) * (width - margin.left - margin.right);
  const y = (head: number): number => height - margin.bottom - (head / maxHead) * (height - margin.top - margin.bottom);
  const line = curve
    .map(([flow, head], i) => `${i === 0 ? "M" : "L"}${x(flow).toFixed(1)} ${y(head).toFixed(1)}`)
    .join("");
  const words = `Pump curve from ${showQuantity("head", maxHead, units)} at no flow to ${showQuantity("flow", maxFlow, units)} at no head${reading ? `; it works at ${showQuantity("flow", reading.flow, units)} and ${showQuantity("head", reading.head, units)}` : ""}.`;
  return (
    <figure className="plot">
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
        <path className="axis" d={`M${margin.left} ${margin.top}V${height - margin.bottom}H${width - margin.right}`} />
        <path className="curve" d={line} {...(pump.curve ? {} : { strokeDasharray: "5 3" })} />
        {reading && reading.flow >= 0 && reading.flow <= maxFlow * 1.05 ? (
          <>
            <path
              className="drop"
              d={`M${margin.left} ${y(reading.head).toFixed(1)}H${x(reading.flow).toFixed(1)}V${height - margin.bottom}`}
            />
            <circle cx={x(reading.flow)} cy={y(reading.head)} r="4" />
          </>
        ) : null}
        <text x={margin.left} y={margin.top - 6}>
          {showQuantity("head", maxHead, units)}
        </text>
        <text x={width - margin.right} y={height - 4} textAnchor="end">
          {showQuantity("flow", maxFlow, units)}
        </text>
      </svg>
    </figure>
  );
}

/** As it stands at its speed: the points given, or the stand-in H = Hmax·(1 − (Q/Qmax)²). */
function drawnCurve(pump: Pump): readonly (readonly [number, number])[] {
  const speed = pump.speed ?? 1;
  if (speed <= 0) return [];
  const points =
    pump.curve ??
    (pump.maxFlow && pump.maxHead
      ? Array.from(
          { length: 21 },
          (_, i) => [(pump.maxFlow ?? 0) * (i / 20), (pump.maxHead ?? 0) * (1 - (i / 20) ** 2)] as const,
        )
      : []);
  return points.map(([flow, head]) => [flow * speed, head * speed ** 2] as const);
}
