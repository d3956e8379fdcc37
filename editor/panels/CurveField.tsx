import type { JSX } from "react";
import type { Pump } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { setField } from "../state/actions/setField.ts";
import { OutTable } from "./OutTable.tsx";
import { readQuantity, typedQuantity } from "./quantity.ts";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { useDesk, useProgram } from "./useDesk.ts";

type CurvePoint = readonly [flow: number, head: number];

/** The maker's curve as points, or the two figures on the box with the stand-in curve they mean. */
export function CurveField({ pump }: { readonly pump: Pump }): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const name = partName(pump);
  const change = (
    label: string,
    alter: (part: { curve?: [number, number][]; maxFlow?: number; maxHead?: number }) => void,
  ): string | null =>
    desk.apply(
      setField(desk.get().section, [pump.id], `${label} of ${name}`, (part) => {
        if (part.kind === "pump") alter(part as { curve?: [number, number][]; maxFlow?: number; maxHead?: number });
      }),
    )
      ? null
      : takeRefusal(desk);
  const setCurve = (label: string, curve: readonly CurvePoint[]): string | null =>
    change(label, (part) => {
      part.curve = curve.map(([q, h]) => [q, h]);
    });

  if (!pump.curve) {
    const line = (label: string, quantity: "flow" | "head", key: "maxFlow" | "maxHead"): JSX.Element => (
      <TypedInput
        label={label}
        text={pump[key] === undefined ? "" : typedQuantity(quantity, pump[key], units)}
        placeholder="not given"
        commit={(typed) => {
          const read = readQuantity(quantity, typed, units);
          return read.ok
            ? change(label, (part) => {
                part[key] = read.value;
              })
            : read.error;
        }}
      />
    );
    return (
      <fieldset className="table-field">
        <legend>Pump curve, from the box</legend>
        {line("Greatest flow", "flow", "maxFlow")}
        {line("Greatest head", "head", "maxHead")}
        <p className="hint">A stand-in curve is drawn through these two: an assumption.</p>
        <button
          type="button"
          className="word"
          onClick={() =>
            change("Curve by points", (part) => {
              part.curve = standIn(pump.maxFlow ?? 0.0008, pump.maxHead ?? 2.4);
              delete part.maxFlow;
              delete part.maxHead;
            })
          }
        >
          Type the maker's points instead
        </button>
      </fieldset>
    );
  }
  const curve = pump.curve;
  const cell = (index: number, side: 0 | 1): JSX.Element => (
    <TypedInput
      bare
      label={`${side === 0 ? "Flow" : "Head"} of point ${index + 1}`}
      text={typedQuantity(side === 0 ? "flow" : "head", curve[index]?.[side] ?? 0, units)}
      commit={(typed) => {
        const read = readQuantity(side === 0 ? "flow" : "head", typed, units);
        if (!read.ok) return read.error;
        return setCurve(
          "Curve",
          curve.map((point, i) => (i !== index ? point : side === 0 ? [read.value, point[1]] : [point[0], read.value])),
        );
      }}
    />
  );
  return (
    <fieldset className="table-field">
      <legend>Pump curve, the maker's points</legend>
      <OutTable
        heads={["flow", "head"]}
        rows={curve.map((_, index) => ({
          cells: [cell(index, 0), cell(index, 1)],
          out:
            curve.length > 2
              ? {
                  label: `Take out point ${index + 1}`,
                  act: () =>
                    void setCurve(
                      "Take a point out of the curve",
                      curve.filter((_p, i) => i !== index),
                    ),
                }
              : null,
        }))}
      />
      <button type="button" className="word" onClick={() => setCurve("Add a point to the curve", withOneMore(curve))}>
        Add a point
      </button>
      <button
        type="button"
        className="word"
        onClick={() =>
          change("Curve from the box", (part) => {
            part.maxFlow = curve.at(-1)?.[0] || 0.0008;
            part.maxHead = curve[0]?.[1] || 2.4;
            delete part.curve;
          })
        }
      >
        Use the two figures on the box
      </button>
    </fieldset>
  );
}

/** The stand-in H = Hmax·(1 − (Q/Qmax)²) as five points to start from. */
const standIn = (maxFlow: number, maxHead: number): [number, number][] =>
  [0, 0.25, 0.5, 0.75, 1].map((share) => [roundTo(maxFlow * share, 1e-7), roundTo(maxHead * (1 - share ** 2), 1e-3)]);

/** In the middle of the widest gap, so that heads go on falling. */
function withOneMore(curve: readonly CurvePoint[]): readonly CurvePoint[] {
  let widest = 1;
  for (let i = 1; i < curve.length; i++) if (gap(curve, i) > gap(curve, widest)) widest = i;
  const a = curve[widest - 1] as CurvePoint;
  const b = curve[widest] as CurvePoint;
  return [...curve.slice(0, widest), [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], ...curve.slice(widest)];
}

const gap = (curve: readonly CurvePoint[], i: number): number => (curve[i]?.[0] ?? 0) - (curve[i - 1]?.[0] ?? 0);
const roundTo = (value: number, step: number): number => Number((Math.round(value / step) * step).toPrecision(9));
