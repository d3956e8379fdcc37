/** A row of the materials list in words: for its slip, for the file that a shop gets, and for the sheet's own tables. */
import { foot, type MaterialRow, type Priced, pound, type Section } from "../../hydraulics/index.ts";
import { sentenceIn } from "./sentence.ts";
import { formatLength, formatMass, formatNumber, formatVolume, type UnitSystem } from "./units.ts";

export interface MaterialWords {
  readonly what: string;
  /** `3`, `2 lengths of 5.00 m`, `4.12 m`, `214 kg` */
  readonly amount: string;
  /** lengths, offcuts, litres; empty where there is no more to say */
  readonly detail: string;
}

/** What one price is for, as on the slip, and how much of the list's own unit (metre, kilogram, piece) that is. */
export function pricedIn(priced: Priced, system: UnitSystem): { readonly word: string; readonly per: number } {
  const us = system === "us";
  switch (priced) {
    case "length":
      return { word: "a length", per: 1 };
    case "piece":
      return { word: "each", per: 1 };
    case "metre":
      return us ? { word: "a foot", per: foot } : { word: "a metre", per: 1 };
    case "kilogram":
      return us ? { word: "a lb", per: pound } : { word: "a kg", per: 1 };
  }
}

/** Without the noise of turning it into another unit and back. */
export const shownPrice = (price: number, per: number): number => Number((price * per).toPrecision(9));

/** Names of sizes, which are bought by them: `50 mm` is no measure, and nobody sells 1.97 in. The longest first. */
export const sizeNames = (section: Section): readonly string[] =>
  [...new Set([...section.parts.values()].flatMap((part) => (part.kind === "pipe" ? (part.nominal ?? []) : [])))]
    .filter((name) => name.trim() !== "")
    .sort((a, b) => b.length - a.length);

/** @param sizes stay as they are, whatever units are shown */
export function materialWords(row: MaterialRow, system: UnitSystem, sizes: readonly string[]): MaterialWords {
  const what = sentenceIn(row.what, system, sizes);
  const length = (metres: number): string => formatLength(metres, system);
  const { cutting } = row;
  switch (row.group) {
    case "pipe":
      if (row.priced === "length" && cutting)
        return {
          what,
          amount: `${cutting.count} × ${length(cutting.stock)}`,
          detail: `${length(row.length ?? 0)} drawn, ${length(cutting.offcut)} left over`,
        };
      return {
        what,
        amount: length(row.length ?? row.amount),
        detail: cutting
          ? `out of ${cutting.count} × ${length(cutting.stock)}, ${length(cutting.offcut)} left over`
          : "",
      };
    case "media":
      return {
        what,
        amount: formatMass(row.mass ?? 0, system),
        detail: `${formatVolume(row.volume ?? 0, system)} in bulk`,
      };
    case "vessel":
      return { what, amount: "1", detail: `${formatVolume(row.volume ?? 0, system)} gross` };
    default:
      return { what, amount: formatNumber(row.amount, 4, 0), detail: "" };
  }
}
