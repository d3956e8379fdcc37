/** Figures in the words of a refusal, as the field shows them: the units of the sheet, shares in percent. */
import { type Amounts, foot, type Measure } from "../../hydraulics/index.ts";
import { format, formatBore, formatNumber, refusalText, shownUnit, type UnitSystem } from "./units.ts";

/** No field holds a figure as large; told whole it would be a row of noughts. */
const endless = 1e7;

/** Noughts after the point tell nothing: `10 to 300`, not `10.00000 to 300.0000`. */
const trimmed = (text: string): string =>
  text.replace(/\.(\d*?)0+(?!\d)/, (_, kept) => (kept === "" ? "" : `.${kept}`));

/** A tape measure's eighths of an inch make nothing of a millimetre. */
const isSmall = (length: number): boolean => length !== 0 && Math.abs(length) < 0.1;

/** A speck of its unit would be a row of noughts with a figure at its end, or look like nothing. */
const speckOr = (text: string, value: number, unit: string): string =>
  value === 0 || /[1-9]/.test(text) ? text : `${value < 0 ? "a little under" : "almost"} 0${unit}`;

/** `10,000,000 ft`, beside an end of a range that has its thousands set apart too. */
const grouped = (text: string): string =>
  text.replace(/(?<![\d.])\d{5,}/, (whole) => whole.replace(/\B(?=(\d{3})+$)/g, ","));

export function refusalFigures(system: UnitSystem): Amounts {
  const bound = (value: number, measure: Measure): string => {
    switch (measure) {
      case "number":
        return trimmed(formatNumber(value, 7, 6));
      case "share":
        return `${trimmed(formatNumber(value * 100, 4, 2))} %`;
      case "power":
        return `${trimmed(formatNumber(value, 8, 2))} W`;
      case "length":
        return isSmall(value) ? formatBore(value, system) : inWholeUnits(value, system);
      case "head":
        return inWholeUnits(value, system);
      case "level":
        // `−100 m`, not `−100.000 m`
        return trimmed(format("level", value, system));
      default:
        return trimmed(format(measure, value, system));
    }
  };
  // With six digits: rounded, what was found might look like what was wanted.
  const one = (value: number, measure: Measure): string => {
    if (!Number.isFinite(value)) return "no number";
    if (Math.abs(value) > endless)
      return `${value < 0 ? "less than" : "more than"} ${bound(endless * Math.sign(value), measure === "level" ? "length" : measure)}`;
    if (measure === "number") return speckOr(trimmed(formatNumber(value, 7, 6)), value, "");
    if (measure === "share") return speckOr(`${trimmed(formatNumber(value * 100, 6, 4))} %`, value, " %");
    if (measure === "temperature") return refusalText(measure, value, system);
    const quantity = measure === "length" && isSmall(value) ? "bore" : measure;
    return speckOr(grouped(refusalText(quantity, value, system)), value, ` ${shownUnit(quantity, system)}`);
  };
  return { one, found: one, range: (min, max, measure) => `${bound(min, measure)} to ${bound(max, measure)}` };
}

/** Ends of ranges are far out: nobody measures them by the inch. */
function inWholeUnits(length: number, system: UnitSystem): string {
  const unit = shownUnit("length", system);
  return `${trimmed(formatNumber(system === "us" ? length / foot : length, 6, 3))} ${unit}`;
}
