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
export { parseQuantity } from "./parseQuantity.ts";

const minus = "−";

/** Text as it stands in a field while it is edited: enough digits to give the same value back. */
export function fieldText(quantity: Quantity, value: number, system: UnitSystem): string {
  if (quantity === "temperature") return formatTemperature(value, system);
  const unit = shownUnit(quantity, system);
  const si = unitNamed(unitsOf(quantity), unit.toLowerCase())?.si ?? 1;
  const shown = String(Number((value / si).toPrecision(6))).replace("-", minus);
  return unit === "" ? shown : `${shown} ${unit}`;
}
