/** A row of the materials list in words: for its slip, for the file that a shop gets, and for the sheet's own tables. */
import type { MaterialRow, Priced } from "../../hydraulics/index.ts";
import { formatLength, formatMass, formatNumber, formatVolume, type UnitSystem } from "./units.ts";

export interface MaterialWords {
  readonly what: string;
  /** `3`, `2 lengths of 5.00 m`, `4.12 m`, `214 kg` */
  readonly amount: string;
  /** lengths, offcuts, litres; empty where there is no more to say */
  readonly detail: string;
}

/** What one price is for, as on the slip: `a length`, `a metre`. */
export const pricedWords: Readonly<Record<Priced, string>> = {
  length: "a length",
  metre: "a metre",
  piece: "each",
  kilogram: "a kg",
};

export function materialWords(row: MaterialRow, system: UnitSystem): MaterialWords {
  const length = (metres: number): string => formatLength(metres, system);
  const { cutting } = row;
  switch (row.group) {
    case "pipe":
      if (row.priced === "length" && cutting)
        return {
          what: row.what,
          amount: `${cutting.count} × ${length(cutting.stock)}`,
          detail: `${length(row.length ?? 0)} drawn, ${length(cutting.offcut)} left over`,
        };
      return {
        what: row.what,
        amount: length(row.length ?? row.amount),
        detail: cutting
          ? `out of ${cutting.count} × ${length(cutting.stock)}, ${length(cutting.offcut)} left over`
          : "",
      };
    case "media":
      return {
        what: row.what,
        amount: formatMass(row.mass ?? 0, system),
        detail: `${formatVolume(row.volume ?? 0, system)} in bulk`,
      };
    case "vessel":
      return { what: row.what, amount: "1", detail: `${formatVolume(row.volume ?? 0, system)} gross` };
    default:
      return { what: row.what, amount: formatNumber(row.amount, 4, 0), detail: "" };
  }
}
