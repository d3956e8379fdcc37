/** How a slip shows and reads its quantities. The units themselves live in `sheet/units.ts`; here a field's
 * quantity finds the unit it is typed in. */
import type { Result } from "../../hydraulics/index.ts";
import {
  exactText,
  type FieldUse,
  fieldText,
  fineFieldText,
  format,
  formatNumber,
  parseQuantity,
  plainFigure,
  type Quantity as Unit,
  type UnitSystem,
} from "../sheet/units.ts";
import type { Quantity } from "./fields/field.ts";

const unitOf = (quantity: Quantity | Unit): Unit => {
  switch (quantity) {
    case "roughness":
    case "grain":
      return "bore";
    case "openingHead":
      return "head";
    case "place":
      return "length";
    default:
      return quantity;
  }
};

const useOf = (quantity: Quantity | Unit): FieldUse | undefined =>
  quantity === "roughness" || quantity === "grain" || quantity === "openingHead" || quantity === "place"
    ? quantity
    : undefined;

/** A figure to be read. */
export const showQuantity = (quantity: Quantity | Unit, value: number, system: UnitSystem): string =>
  format(unitOf(quantity), value, system);

/** How many times over the returns carry what comes: two digits, as in the title block. */
export const showMargin = (margin: number): string => `${formatNumber(margin, 2, 2)} ×`;

/** A figure to be typed over: the digits that matter. */
export const typedQuantity = (quantity: Quantity | Unit, value: number, system: UnitSystem): string =>
  (quantity === "roughness" ? fineFieldText : fieldText)(unitOf(quantity), value, system);

/** With every digit that counts, to tell two figures apart. */
export const exactQuantity = (quantity: Quantity | Unit, value: number, system: UnitSystem): string =>
  exactText(unitOf(quantity), value, system);

export const readQuantity = (quantity: Quantity | Unit, typed: string, system: UnitSystem): Result<number, string> => {
  // Left of where places are reckoned from is as good a place as right of it; a length is never below nothing.
  const read = parseQuantity(quantity === "place" ? "level" : unitOf(quantity), typed, system, useOf(quantity));
  return read.ok
    ? { ok: true, value: tidy(read.value) }
    : { ok: false, error: `${read.error.replace(/^./, (c) => c.toUpperCase())}.` };
};

/** 8.25 ft is 2.5146 m, not 2.5145999999999997 m. */
const tidy = (value: number): number => Number(value.toPrecision(12));

export const showNumber = (value: number, percent = false): string =>
  percent ? `${plainFigure(Number((value * 100).toPrecision(6)))} %` : plainFigure(Number(value.toPrecision(6)));

/** A bare number, or a share in percent; a decimal comma is a point. */
export function readNumber(typed: string, percent = false): Result<number, string> {
  const text = typed.trim().replace(/\s*%$/, "").replace(",", ".").replace("−", "-");
  // `Number` alone would take 0x10 for sixteen.
  const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
  if (!Number.isFinite(value))
    return {
      ok: false,
      error: percent ? 'Understood is a share such as "75 %".' : 'Understood is a number such as "1.5".',
    };
  return { ok: true, value: percent ? tidy(value / 100) : value };
}
