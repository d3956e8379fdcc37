import { type JSX, useId } from "react";
import { type Part, type Pipe, sizeSeries } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { fieldText } from "../sheet/units.ts";
import { setField } from "../state/actions/setField.ts";
import { useDesk, useProgram } from "./useDesk.ts";

/** Sizes as they are sold; choosing one sets bore, name and material together. */
export function SizeField({ parts }: { readonly parts: readonly Part[] }): JSX.Element | null {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const id = useId();
  const pipes = parts.filter((part): part is Pipe => part.kind === "pipe");
  const first = pipes[0];
  if (!first) return null;
  const value = pipes.every((pipe) => pipe.bore === first.bore && pipe.nominal === first.nominal)
    ? keyOf(first)
    : "various";
  const choose = (key: string): void => {
    const [s, n] = key.split(" ").map(Number) as [number, number];
    const series = sizeSeries[s];
    const size = series?.sizes[n];
    if (!series || !size) return;
    desk.apply(
      setField(
        desk.get().section,
        pipes.map((pipe) => pipe.id),
        `Size of ${pipes.length === 1 ? partName(first) : `${pipes.length} pipes`}`,
        (part) => {
          if (part.kind !== "pipe") return;
          part.bore = size.bore;
          part.nominal = `${series.name}, ${size.name}`;
          part.material = series.material;
        },
      ),
    );
  };
  return (
    <div className="field">
      <label htmlFor={id}>Size</label>
      <select id={id} value={value} onChange={(event) => choose(event.target.value)}>
        {value === "none" ? <option value="none">{first.nominal ?? "of its own"}</option> : null}
        {value === "various" ? <option value="various">various</option> : null}
        {sizeSeries.map((series, s) => (
          <optgroup key={series.name} label={series.name}>
            {series.sizes.map((size, n) => (
              <option key={size.name} value={`${s} ${n}`}>
                {`${size.name}, bore ${fieldText("bore", size.bore, units)}`}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </div>
  );
}

function keyOf(pipe: Pipe): string {
  for (const [s, series] of sizeSeries.entries()) {
    const n = series.sizes.findIndex(
      (size) => pipe.nominal === `${series.name}, ${size.name}` && size.bore === pipe.bore,
    );
    if (n >= 0) return `${s} ${n}`;
  }
  return "none";
}
