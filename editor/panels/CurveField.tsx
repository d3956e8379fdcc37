import { type JSX, useEffect, useState } from "react";
import type { Pump } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { setCurve } from "../state/actions/setCurve.ts";
import { setField } from "../state/actions/setField.ts";
import { CurveTable } from "./CurveTable.tsx";
import { readQuantity, typedQuantity } from "./quantity.ts";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { useDesk, useProgram } from "./useDesk.ts";

/** The maker's curve as points, or the two figures on the box with the stand-in curve they mean. */
export function CurveField({ pump }: { readonly pump: Pump }): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  // The word that opens the table goes away with the cursor on it. A step that is done again opens it too, and must not
  // take the keys from where they are.
  const [isAsked, setAsked] = useState(false);
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
  useEffect(() => {
    if (pump.curve) setAsked(false);
  }, [pump.curve]);

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
          onClick={() => {
            const curve = standIn(pump.maxFlow ?? 0.0008, pump.maxHead ?? 2.4);
            setAsked(desk.apply(setCurve(desk.get().section, pump.id, "Curve by points", curve)));
          }}
        >
          Type the maker's points instead
        </button>
      </fieldset>
    );
  }
  return (
    <fieldset className="table-field">
      <legend>Pump curve, the maker's points</legend>
      <CurveTable id={pump.id} curve={pump.curve} isEntered={isAsked} />
      <button
        type="button"
        className="word"
        onClick={() =>
          change("Curve from the box", (part) => {
            part.maxFlow = pump.curve?.at(-1)?.[0] || 0.0008;
            part.maxHead = pump.curve?.[0]?.[1] || 2.4;
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

const roundTo = (value: number, step: number): number => Number((Math.round(value / step) * step).toPrecision(9));
