/** The walk's price of pipe as it is typed: by the length and the bore that the sheet shows. */
import { foot, inch, usualWish } from "../../../hydraulics/index.ts";
import { formatPrice, type UnitSystem } from "../../sheet/units.ts";
import { showNumber } from "../quantity.ts";

export interface PipePrice {
  readonly label: string;
  readonly hint: string;
  /** what a price of one is by metre of length and metre of bore */
  readonly si: number;
}

export function pipePriceIn(units: UnitSystem): PipePrice {
  const [length, bore, example] =
    units === "metric" ? (["metre", "millimetre", 50] as const) : (["foot", "inch", 2] as const);
  const si = units === "metric" ? 1000 : 1 / (foot * inch);
  const usual = Number((usualWish.pipePrice / si).toPrecision(3));
  const cost = formatPrice(usual * example, "");
  const sized = units === "metric" ? `${example}\u00a0mm` : `${example}\u00a0in`;
  return {
    label: `Pipe costs, per ${length} and ${bore} of bore`,
    hint: `With its fittings; assumed, no source: ${showNumber(usual)} makes a ${length} of ${sized} bore cost ${cost}.`,
    si,
  };
}
