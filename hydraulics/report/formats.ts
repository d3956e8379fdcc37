/** SI figures as they are read, in metric or US customary units: units, digits, signs. The command line's report, its
 * page and the editor's sheet all take them from here; only the columns of the report's tables have a fixed number of
 * decimals (`shown.ts`). A figure is never shown without its unit, apart from levels on a drawing, whose title block
 * says what they are in.
 *
 * Factors are exact by definition: foot 0.3048 m, US gallon 231 in³, pound 0.45359237 kg (NIST Handbook 44, appendix
 * C); a head of water in psi or bar is ρg·h with ρ 999.1 kg/m³ (15 °C) and g 9.80665 m/s². */
import { g } from "../formulas/gravity.ts";
import { foot, gallon, inch, pound, psi } from "../formulas/units.ts";

export { formatTime } from "../document/formatTime.ts";
export { unparted } from "./unparted.ts";

export type UnitSystem = "metric" | "us";
export type FigureQuantity =
  | "length"
  | "level"
  | "bore"
  | "flow"
  | "velocity"
  | "volume"
  | "head"
  | "pressure"
  | "mass"
  | "power"
  | "money"
  | "temperature";

const hour = 3600;
/** Pa a metre of water */
export const headPressure = 999.1 * g;

const minus = "−";
export const noFigure = "—";

/** At most `digits` digits that count and at most `decimals` after the point, thousands set apart by commas. */
export function formatNumber(value: number, digits = 3, decimals = 3): string {
  if (!Number.isFinite(value)) return noFigure;
  const size = Math.abs(value);
  if (size === 0) return "0";
  const places = Math.min(decimals, Math.max(0, digits - 1 - Math.floor(Math.log10(size))));
  // Rounding may reach the next power of ten (99.96 → 100), which then shows one digit more: harmless.
  const text = size >= 10 ** digits ? Number(size.toPrecision(digits)).toFixed(0) : size.toFixed(places);
  if (Number(text) === 0) return "0";
  const [whole = "0", part] = text.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return `${value < 0 ? minus : ""}${grouped}${part === undefined ? "" : `.${part}`}`;
}

const fixed = (value: number, decimals: number): string => {
  const text = Math.abs(value).toFixed(decimals);
  return Number(text) === 0 ? text : `${value < 0 ? minus : ""}${text}`;
};

const signed = (value: number, decimals: number): string => {
  if (!Number.isFinite(value)) return noFigure;
  const text = Math.abs(value).toFixed(decimals);
  return `${Number(text) === 0 ? "±" : value < 0 ? minus : "+"}${text}`;
};

/** Sizes and powers as their makers write them: `13`, not `13.0`. */
const trimmed = (text: string): string => (text.includes(".") ? text.replace(/\.?0+$/, "") : text);

/** Sentences are written once, in metres and litres (`powerCut/words.ts`), and turned into feet and gallons from what is
 * written. A figure that may stand beside one is rounded as there before it is turned: +0.11431 is +0.114 in words and
 * so +0.37 ft, not +0.38 in a heading over +0.37. At most a sixth of the last digit shown is given away for it. */
export const levelInWords = (level: number): number => Number(level.toFixed(3));

/** The same of litres. */
function litresInWords(litres: number): number {
  const size = Math.abs(litres);
  return size >= 1000 ? Math.round(litres) : Number(size >= 10 ? litres.toFixed(1) : litres.toPrecision(2));
}

/** `+0.474`, `−0.030`, `±0.000`: metres, or feet and hundredths, as the title block says. */
export const formatLevel = (level: number, system: UnitSystem): string =>
  system === "metric" ? signed(level, 3) : signed(levelInWords(level) / foot, 2);

/** The same with its unit, for words away from the drawing. */
export const formatLevelUnit = (level: number, system: UnitSystem): string =>
  `${formatLevel(level, system)} ${levelUnit(system)}`;

export const levelUnit = (system: UnitSystem): string => (system === "metric" ? "m" : "ft");

/** `50 mm`, `0.504 m`, `4.12 m`; `1 ft 7 7/8 in`. */
export function formatLength(length: number, system: UnitSystem): string {
  if (!Number.isFinite(length)) return noFigure;
  if (system === "us") return feetAndInches(length);
  const size = Math.abs(length);
  if (size < 0.0995) return `${trimmed(formatNumber(length * 1000, 3, 1))} mm`;
  return `${fixed(length, size < 1 ? 3 : size < 100 ? 2 : size < 1000 ? 1 : 0)} m`;
}

/** As on a dimension line: to the millimetre, or the eighth of an inch. */
export const formatDimension = (length: number, system: UnitSystem): string =>
  Number.isFinite(length) ? (system === "us" ? feetAndInches(length) : `${fixed(length, 3)} m`) : noFigure;

/** To the eighth of an inch, as a tape measure has it. */
function feetAndInches(length: number): string {
  const eighths = Math.round(Math.abs(length) / inch / 0.125);
  const feet = Math.floor(eighths / 96);
  const inches = Math.floor((eighths % 96) / 8);
  const rest = eighths % 8;
  const fraction = rest === 0 ? "" : rest % 4 === 0 ? "1/2" : rest % 2 === 0 ? `${rest / 2}/4` : `${rest}/8`;
  const inchText = [inches > 0 || fraction === "" ? String(inches) : "", fraction].filter(Boolean).join(" ");
  const words = [
    feet > 0 ? `${formatNumber(feet, 6, 0)} ft` : "",
    inches > 0 || rest > 0 || feet === 0 ? `${inchText} in` : "",
  ];
  return `${length < 0 && eighths > 0 ? minus : ""}${words.filter(Boolean).join(" ")}`;
}

/** `27.2 mm`; `1.07 in`. Of a grain or a wall's roughness, which is far less than a bore, two digits: `0.16 mm`; `0.0063 in`. */
export function formatBore(bore: number, system: UnitSystem): string {
  const [shown, unit, small] = system === "metric" ? [bore * 1000, "mm", 0.9995] : [bore / inch, "in", 0.00995];
  const isSmall = Math.abs(shown) < small;
  return `${trimmed(isSmall ? formatNumber(shown, 2, 7) : formatNumber(shown, 3, system === "metric" ? 1 : 3))} ${unit}`;
}

/** `2,210 L/h`; `584 gph`. */
export function formatFlow(flow: number, system: UnitSystem): string {
  const litres = flow * 1000 * hour;
  if (system === "us") return `${formatNumber(litresInWords(litres) / (gallon * 1000), 3, 1)} gph`;
  return Math.abs(litres) < 100_000 ? `${formatNumber(litres, 3, 1)} L/h` : `${formatNumber(flow * hour, 3, 1)} m³/h`;
}

/** `1.06 m/s`; `3.48 ft/s`. */
export const formatVelocity = (velocity: number, system: UnitSystem): string =>
  system === "metric" ? `${formatNumber(velocity, 3, 2)} m/s` : `${formatNumber(velocity / foot, 3, 2)} ft/s`;

/** `310 L`, `13.2 m³`; `82 gal`. */
export function formatVolume(volume: number, system: UnitSystem): string {
  if (system === "us") return `${formatNumber(litresInWords(volume * 1000) / (gallon * 1000), 3, 1)} gal`;
  return Math.abs(volume) < 10 ? `${formatNumber(volume * 1000, 3, 1)} L` : `${formatNumber(volume, 3, 1)} m³`;
}

/** `0.424 m`; `1.39 ft`. What clean stone takes off is less than a metre's third decimal: `0.19 mm`; `0.007 in`. */
export function formatHead(head: number, system: UnitSystem): string {
  const isSmall = Math.abs(head) < 0.00095 && Math.abs(head) > 1e-6;
  if (isSmall)
    return system === "metric" ? `${formatNumber(head * 1000, 2, 3)} mm` : `${formatNumber(head / inch, 2, 3)} in`;
  return system === "metric" ? `${formatNumber(head, 3, 3)} m` : `${formatNumber(head / foot, 3, 2)} ft`;
}

/** A head of water as a gauge shows it: `0.424 m`; `0.60 psi`. */
export const formatPressure = (head: number, system: UnitSystem): string =>
  system === "metric" ? formatHead(head, system) : `${formatNumber((head * headPressure) / psi, 3, 2)} psi`;

/** `420 kg`; `926 lb`. */
export const formatMass = (mass: number, system: UnitSystem): string =>
  system === "metric" ? `${formatNumber(mass, 3, 1)} kg` : `${formatNumber(mass / pound, 3, 1)} lb`;

/** Of a filled vessel on its footing: `9.4 kPa`; `196 lb/ft²`. */
export const formatLoad = (pascals: number, system: UnitSystem): string =>
  system === "metric"
    ? `${formatNumber(pascals / 1000, 3, 1)} kPa`
    : `${formatNumber((pascals * foot ** 2) / (pound * g), 3, 0)} lb/ft²`;

export const formatPower = (watts: number): string => `${trimmed(formatNumber(watts, 3, 1))} W`;

/** A price of a unit: `0.3`, `0.285`. */
export const formatRate = (rate: number): string => trimmed(formatNumber(rate, 3, 4));

/** Whole units over ten, two places under; the currency before it where the drawing names one. */
export const formatMoney = (amount: number, currency: string): string => {
  const text =
    Math.abs(amount) < 10
      ? Number.isFinite(amount)
        ? fixed(amount, 2)
        : noFigure
      : formatNumber(Math.round(amount), 6, 0);
  return currency.trim() === "" ? text : `${currency.trim()} ${text}`;
};

/** What is paid in a shop, to the cent: `EUR 1,234.50`. */
export const formatPrice = (amount: number, currency: string): string => {
  const text = Number.isFinite(amount) ? fixed(amount, 2) : noFigure;
  return currency.trim() === "" ? text : `${currency.trim()} ${text}`;
};

/** `15 °C`; `59 °F`. */
export const formatTemperature = (celsius: number, system: UnitSystem): string =>
  system === "metric"
    ? `${trimmed(formatNumber(celsius, 3, 1))} °C`
    : `${trimmed(formatNumber(celsius * 1.8 + 32, 3, 1))} °F`;

/** Any quantity with its unit; `money` has none of its own. */
export function formatFigure(quantity: FigureQuantity, value: number, system: UnitSystem): string {
  switch (quantity) {
    case "length":
      return formatLength(value, system);
    case "level":
      return formatLevelUnit(value, system);
    case "bore":
      return formatBore(value, system);
    case "flow":
      return formatFlow(value, system);
    case "velocity":
      return formatVelocity(value, system);
    case "volume":
      return formatVolume(value, system);
    case "head":
      return formatHead(value, system);
    case "pressure":
      return formatPressure(value, system);
    case "mass":
      return formatMass(value, system);
    case "power":
      return formatPower(value);
    case "money":
      return formatMoney(value, "");
    case "temperature":
      return formatTemperature(value, system);
  }
}
