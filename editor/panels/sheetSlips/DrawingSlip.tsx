/** The drawing's own fields: title, site, formulas, prices. */
import { type JSX, useId } from "react";
import type { Section } from "../../../hydraulics/index.ts";
import { setSite, setTitle } from "../../state/actions/setField.ts";
import { readNumber, readQuantity, showNumber, typedQuantity } from "../quantity.ts";
import { TypedInput } from "../TypedInput.tsx";
import { takeRefusal } from "../takeRefusal.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import type { SheetSlipProps } from "./sheetSlip.ts";

export function DrawingSlip({ section }: SheetSlipProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const friction = useId();
  const { site } = section;
  const now = (): Section => desk.get().section;
  const done = (ok: boolean): string | null => (ok ? null : takeRefusal(desk));
  const place = (
    label: string,
    key: "groundLevel" | "freeboard" | "waterTemperature",
    quantity: "level" | "length" | "temperature",
    usual: number,
  ): JSX.Element => (
    <TypedInput
      label={label}
      text={site[key] === undefined ? "" : typedQuantity(quantity, site[key], units)}
      placeholder={typedQuantity(quantity, usual, units)}
      commit={(typed) => {
        if (typed.trim() === "")
          return done(
            desk.apply(
              setSite(now(), label, (draft) => {
                delete draft[key];
              }),
            ),
          );
        const read = readQuantity(quantity, typed, units);
        return read.ok
          ? done(
              desk.apply(
                setSite(now(), label, (draft) => {
                  draft[key] = read.value;
                }),
              ),
            )
          : read.error;
      }}
    />
  );
  return (
    <>
      <TypedInput
        label="Title"
        text={section.title}
        commit={(typed) => done(desk.apply(setTitle(now(), typed.trim())))}
      />
      {place("Ground level", "groundLevel", "level", 0)}
      {place("Freeboard wanted", "freeboard", "length", 0.05)}
      {place("Water temperature", "waterTemperature", "temperature", 15)}
      <div className="field">
        <label htmlFor={friction}>Friction by</label>
        <select
          id={friction}
          value={site.friction ?? "hazen-williams"}
          onChange={(event) =>
            desk.apply(
              setSite(now(), "Friction formula", (draft) => {
                draft.friction = event.target.value as "hazen-williams" | "darcy-weisbach";
              }),
            )
          }
        >
          <option value="hazen-williams">Hazen-Williams</option>
          <option value="darcy-weisbach">Darcy-Weisbach</option>
        </select>
      </div>
      <TypedInput
        label="Price of a kWh"
        text={site.tariff === undefined ? "" : showNumber(site.tariff)}
        placeholder="0.3"
        commit={(typed) => {
          if (typed.trim() === "")
            return done(
              desk.apply(
                setSite(now(), "Price of a kWh", (draft) => {
                  delete draft.tariff;
                }),
              ),
            );
          const read = readNumber(typed);
          return read.ok
            ? done(
                desk.apply(
                  setSite(now(), "Price of a kWh", (draft) => {
                    draft.tariff = read.value;
                  }),
                ),
              )
            : read.error;
        }}
      />
      <TypedInput
        label="Currency"
        text={site.currency ?? ""}
        placeholder="none"
        commit={(typed) =>
          done(
            desk.apply(
              setSite(now(), "Currency", (draft) => {
                draft.currency = typed.trim();
              }),
            ),
          )
        }
      />
      <p className="caution">Results are estimates, not a licensed design.</p>
    </>
  );
}
