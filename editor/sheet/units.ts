/** The text that a field holds while it is edited, and all else that the editor asks about units: how figures are shown
 * stands in the library, whose reports show the same ones, how they are read in `parseQuantity.ts`; both are handed on
 * here, so that the rest of the editor has one place to ask. */
import { formatTemperature, type UnitSystem } from "../../hydraulics/index.ts";
import { type Quantity, shownUnit, unitNamed, unitsOf } from "./knownUnits.ts";

export {
  formatBore,
  formatDimension,
  formatFigure as format,
  formatFlow,
  formatHead,
  formatLength,
  formatLevel,
  formatLevelUnit,
  formatLoad,
  formatMass,
  formatMoney,
  formatNumber,
  formatPower,
  formatPressure,
  formatPrice,
  formatRate,
  formatTemperature,
  formatTime,
  formatVelocity,
  formatVolume,
  levelUnit,
  noFigure,
  type UnitSystem,
  unparted,
} from "../../hydraulics/index.ts";

export { type Quantity, shownUnit } from "./knownUnits.ts";
export { type FieldUse, parseQuantity } from "./parseQuantity.ts";

const minus = "−";

/** Text as it stands in a field while it is edited. A field that is left as it was is not read back, so the digits
 * need only be those that matter: a metre turned into feet has no end of them. */
export const fieldText = (quantity: Quantity, value: number, system: UnitSystem): string =>
  textWith(system === "us" ? digitsThatMatter(quantity, 2) : sixDigits, quantity, value, system);

/** The same for what is a few thousandths of its unit, such as the roughness of a wall. */
export const fineFieldText = (quantity: Quantity, value: number, system: UnitSystem): string =>
  textWith(system === "us" ? digitsThatMatter(quantity, 3) : sixDigits, quantity, value, system);

/** Six digits, to tell apart what the field shows alike. */
export const exactText = (quantity: Quantity, value: number, system: UnitSystem): string =>
  textWith(sixDigits, quantity, value, system);

/** To be told in a refusal: six digits, but no hundred-thousandths of the unit. */
export const refusalText = (quantity: Quantity, value: number, system: UnitSystem): string =>
  textWith((shown) => Number(sixDigits(shown).toFixed(5)), quantity, value, system);

function textWith(round: (shown: number) => number, quantity: Quantity, value: number, system: UnitSystem): string {
  if (quantity === "temperature") return formatTemperature(value, system);
  const unit = shownUnit(quantity, system);
  const si = unitNamed(unitsOf(quantity), unit.toLowerCase())?.si ?? 1;
  const shown = plainFigure(round(value / si)).replace("-", minus);
  return unit === "" ? shown : `${shown} ${unit}`;
}

/** Without a power of ten in letters, which no field would read back. */
export const plainFigure = (value: number): string => {
  const text = String(value);
  return text.includes("e-") ? value.toFixed(15).replace(/0+$/, "").replace(/\.$/, "") : text;
};

const sixDigits = (shown: number): number => Number(shown.toPrecision(6));

const inThousandths: ReadonlySet<Quantity> = new Set(["length", "level", "bore", "head"]);

/** Thousandths of a foot or an inch, and at least so many digits that a small one is not nothing; of all else four. */
const digitsThatMatter =
  (quantity: Quantity, least: number) =>
  (shown: number): number => {
    const six = sixDigits(shown);
    // Few digits say it whole: it was typed in this unit, and stays as it was typed.
    if (Math.abs(six - shown) <= 1e-9 * Math.abs(shown)) return six;
    if (!inThousandths.has(quantity)) return Number(shown.toPrecision(4));
    const places = least - 1 - Math.floor(Math.log10(Math.abs(shown)));
    // Past the tenth place stands nothing but the noise of adding.
    return Number(shown.toFixed(Math.min(Math.max(3, places), 10)));
  };
