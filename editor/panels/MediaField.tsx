import type { JSX } from "react";
import type { MediaLayer, Vessel } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { setField } from "../state/actions/setField.ts";
import type { Quantity } from "./fields/field.ts";
import { OutTable } from "./OutTable.tsx";
import { readNumber, readQuantity, showNumber, typedQuantity } from "./quantity.ts";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { useDesk, useProgram } from "./useDesk.ts";

const fresh: MediaLayer = { depth: 0.15, grain: 0.012, porosity: 0.4 };

/** The layers of stone as they lie: the uppermost first. */
export function MediaField({ vessel }: { readonly vessel: Vessel }): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const layers = vessel.media ?? [];
  const change = (label: string, media: readonly MediaLayer[]): boolean =>
    desk.apply(
      setField(desk.get().section, [vessel.id], `${label} of ${partName(vessel)}`, (part) => {
        if (part.kind === "vessel") part.media = media.map((layer) => ({ ...layer }));
      }),
    );
  const set = (index: number, name: "depth" | "grain" | "porosity", value: number): string | null =>
    change(
      "Stone",
      layers.map((layer, i) => (i === index ? { ...layer, [name]: value } : layer)),
    )
      ? null
      : takeRefusal(desk);
  const cell = (index: number, name: "depth" | "grain", label: string, quantity: Quantity): JSX.Element => (
    <TypedInput
      bare
      label={`${label} of layer ${index + 1} from the base`}
      text={typedQuantity(quantity, layers[index]?.[name] ?? 0, units)}
      commit={(typed) => {
        const read = readQuantity(quantity, typed, units);
        return read.ok ? set(index, name, read.value) : read.error;
      }}
    />
  );
  const voids = (index: number): JSX.Element => (
    <TypedInput
      bare
      label={`Voids of layer ${index + 1} from the base`}
      text={showNumber(layers[index]?.porosity ?? 0, true)}
      commit={(typed) => {
        const read = readNumber(typed, true);
        return read.ok ? set(index, "porosity", read.value) : read.error;
      }}
    />
  );
  return (
    <fieldset className="table-field">
      <legend>Stone, the uppermost first</legend>
      {layers.length > 0 ? (
        <OutTable
          heads={["depth", "grain", "voids"]}
          rows={layers
            .map((_, i) => i)
            .reverse()
            .map((index) => ({
              cells: [cell(index, "depth", "Depth", "length"), cell(index, "grain", "Grain", "grain"), voids(index)],
              out: {
                label: `Take out layer ${index + 1} from the base`,
                act: () =>
                  void change(
                    "Take out stone",
                    layers.filter((_, i) => i !== index),
                  ),
              },
            }))}
        />
      ) : (
        <p className="hint">No stone: open water.</p>
      )}
      <button type="button" className="word" onClick={() => change("Add stone", [...layers, fresh])}>
        Add a layer on top
      </button>
    </fieldset>
  );
}
