/** What is shown and typed, against the SI inside: units, digits, signs. The only place in the editor that
 * knows a gallon. A figure is never shown without its unit, apart from levels on the drawing itself, whose
 * title block says what they are in.
 *
 * Factors are exact by definition: foot 0.3048 m, US gallon 231 in³, pound 0.45359237 kg; a head of water in
 * psi or bar is ρg·h with ρ 999.1 kg/m³ (15 °C) and g 9.80665 m/s². */
import type { Result } from "../../hydraulics/index.ts";

export type UnitSystem = "metric" | "us";
export type Quantity =
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

const foot = 0.3048;
const inch = foot / 12;
const gallon = 231 * inch ** 3;
const pound = 0.45359237;
const hour = 3600;
/** Pa a metre of water */
const headPressure = 999.1 * 9.80665;
const psi = (pound * 9.80665) / inch ** 2;

// --- numbers ------------------------------------------------------------------------------------------

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

// --- one quantity, one way to show it ---------------------------------------------------------------------

/** `+0.474`, `−0.030`, `±0.000`: metres, or feet and hundredths, as the title block says. */
export const formatLevel = (level: number, system: UnitSystem): string =>
  system === "metric" ? signed(level, 3) : signed(level / foot, 2);

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

/** `27.2 mm`; `1.07 in`. */
export const formatBore = (bore: number, system: UnitSystem): string =>
  system === "metric"
    ? `${trimmed(formatNumber(bore * 1000, 3, 1))} mm`
    : `${trimmed(formatNumber(bore / inch, 3, 3))} in`;

/** `2,210 L/h`; `584 gph`. */
export function formatFlow(flow: number, system: UnitSystem): string {
  if (system === "us") return `${formatNumber((flow / gallon) * hour, 3, 1)} gph`;
  const litres = flow * 1000 * hour;
  return Math.abs(litres) < 100_000 ? `${formatNumber(litres, 3, 1)} L/h` : `${formatNumber(flow * hour, 3, 1)} m³/h`;
}

/** `1.06 m/s`; `3.48 ft/s`. */
export const formatVelocity = (velocity: number, system: UnitSystem): string =>
  system === "metric" ? `${formatNumber(velocity, 3, 2)} m/s` : `${formatNumber(velocity / foot, 3, 2)} ft/s`;

/** `310 L`, `13.2 m³`; `82 gal`. */
export function formatVolume(volume: number, system: UnitSystem): string {
  if (system === "us") return `${formatNumber(volume / gallon, 3, 1)} gal`;
  return Math.abs(volume) < 10 ? `${formatNumber(volume * 1000, 3, 1)} L` : `${formatNumber(volume, 3, 1)} m³`;
}

/** `0.424 m`; `1.39 ft`. */
export const formatHead = (head: number, system: UnitSystem): string =>
  system === "metric" ? `${formatNumber(head, 3, 3)} m` : `${formatNumber(head / foot, 3, 2)} ft`;

/** A head of water as a gauge shows it: `0.424 m`; `0.60 psi`. */
export const formatPressure = (head: number, system: UnitSystem): string =>
  system === "metric" ? formatHead(head, system) : `${formatNumber((head * headPressure) / psi, 3, 2)} psi`;

/** `420 kg`; `926 lb`. */
export const formatMass = (mass: number, system: UnitSystem): string =>
  system === "metric" ? `${formatNumber(mass, 3, 1)} kg` : `${formatNumber(mass / pound, 3, 1)} lb`;

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

/** `15 °C`; `59 °F`. */
export const formatTemperature = (celsius: number, system: UnitSystem): string =>
  system === "metric"
    ? `${trimmed(formatNumber(celsius, 3, 1))} °C`
    : `${trimmed(formatNumber(celsius * 1.8 + 32, 3, 1))} °F`;

/** `6 s`, `4 min`, `2 h 10 min`. */
export function formatTime(seconds: number): string {
  if (!Number.isFinite(seconds)) return noFigure;
  if (seconds < 9.95) return `${trimmed(formatNumber(seconds, 2, 1))} s`;
  if (seconds < 99.5 && Math.round(seconds) !== 60) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 100 && minutes !== 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return minutes % 60 === 0 || hours >= 24 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

/** Any quantity with its unit; `money` has none of its own. */
export function format(quantity: Quantity, value: number, system: UnitSystem): string {
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

// --- what a field holds, and what may be typed into it -----------------------------------------------------

/** A unit as typed, lower case, and the SI it stands for. */
interface Unit {
  readonly names: readonly string[];
  readonly si: number;
  /** a comma before three digits sets thousands apart: nobody types 1.200 mm, and nobody has 1,200 m of pipe */
  readonly grouped?: boolean;
}

const lengths: readonly Unit[] = [
  { names: ["m", "metre", "metres", "meter", "meters"], si: 1 },
  { names: ["cm"], si: 0.01 },
  { names: ["mm"], si: 0.001, grouped: true },
  { names: ["ft", "foot", "feet", "'", "′", "’"], si: foot },
  { names: ["in", "inch", "inches", '"', "″", "”", "''", "in."], si: inch },
  { names: ["yd", "yard", "yards"], si: 3 * foot },
];

const g = true;
const known: Readonly<Record<Quantity, readonly Unit[]>> = {
  length: lengths,
  level: lengths,
  bore: lengths,
  flow: [
    { names: ["l/h", "lph", "l/hr", "litres/h", "liters/h"], si: 1e-3 / hour, grouped: g },
    { names: ["l/min", "lpm"], si: 1e-3 / 60, grouped: g },
    { names: ["l/s", "lps"], si: 1e-3 },
    { names: ["m3/h", "m³/h", "cbm/h"], si: 1 / hour },
    { names: ["m3/s", "m³/s"], si: 1 },
    { names: ["gph", "gal/h", "gal/hr", "us gph"], si: gallon / hour, grouped: g },
    { names: ["gpm", "gal/min", "us gpm"], si: gallon / 60 },
  ],
  velocity: [
    { names: ["m/s"], si: 1 },
    { names: ["cm/s"], si: 0.01 },
    { names: ["m/h"], si: 1 / hour },
    { names: ["ft/s", "fps"], si: foot },
  ],
  volume: [
    { names: ["l", "litre", "litres", "liter", "liters"], si: 1e-3, grouped: g },
    { names: ["m3", "m³", "cbm"], si: 1 },
    { names: ["gal", "gallon", "gallons", "us gal"], si: gallon, grouped: g },
    { names: ["ft3", "ft³", "cu ft"], si: foot ** 3 },
  ],
  head: [
    ...lengths,
    { names: ["psi"], si: psi / headPressure },
    { names: ["kpa"], si: 1000 / headPressure },
    { names: ["mbar", "hpa"], si: 100 / headPressure },
    { names: ["bar"], si: 1e5 / headPressure },
  ],
  pressure: [],
  mass: [
    { names: ["kg"], si: 1, grouped: g },
    { names: ["g"], si: 1e-3, grouped: g },
    { names: ["t"], si: 1000 },
    { names: ["lb", "lbs", "pound", "pounds"], si: pound, grouped: g },
  ],
  power: [
    { names: ["w", "watt", "watts"], si: 1, grouped: g },
    { names: ["kw"], si: 1000 },
    { names: ["hp"], si: 550 * foot * pound * 9.80665 },
  ],
  money: [],
  temperature: [
    { names: ["°c", "c"], si: 1 },
    { names: ["°f", "f"], si: 1 },
  ],
};

const unitsOf = (quantity: Quantity): readonly Unit[] => known[quantity === "pressure" ? "head" : quantity];

/** The unit that a bare number is taken in, and that a field shows. */
export function shownUnit(quantity: Quantity, system: UnitSystem): string {
  const us = system === "us";
  switch (quantity) {
    case "length":
    case "level":
    case "head":
      return us ? "ft" : "m";
    case "pressure":
      return us ? "psi" : "m";
    case "bore":
      return us ? "in" : "mm";
    case "flow":
      return us ? "gph" : "L/h";
    case "velocity":
      return us ? "ft/s" : "m/s";
    case "volume":
      return us ? "gal" : "L";
    case "mass":
      return us ? "lb" : "kg";
    case "power":
      return "W";
    case "money":
      return "";
    case "temperature":
      return us ? "°F" : "°C";
  }
}

const examples: Readonly<Record<Quantity, string>> = {
  length: "2.4 m, 240 cm or 8 ft 3 in",
  level: "+0.45 m, -30 mm or 1 ft 6 in",
  bore: "34 mm or 1 1/2 in",
  flow: "600 L/h, 0.5 L/s, 160 gph or 3 gpm",
  velocity: "1.2 m/s or 4 ft/s",
  volume: "310 L, 2.4 m³ or 80 gal",
  head: "2.4 m, 8 ft or 3.5 psi",
  pressure: "2.4 m, 8 ft or 3.5 psi",
  mass: "420 kg or 900 lb",
  power: "28 W",
  money: "0.30",
  temperature: "15 °C or 59 °F",
};

/** What is understood in this field, for its hint and for a refusal. */
export const understood = (quantity: Quantity): string => examples[quantity];

/** Text as it stands in a field while it is edited: enough digits to give the same value back. */
export function fieldText(quantity: Quantity, value: number, system: UnitSystem): string {
  if (quantity === "temperature") return formatTemperature(value, system);
  const unit = shownUnit(quantity, system);
  const si = unitNamed(unitsOf(quantity), unit.toLowerCase())?.si ?? 1;
  const shown = String(Number((value / si).toPrecision(6))).replace("-", minus);
  return unit === "" ? shown : `${shown} ${unit}`;
}

const unitNamed = (units: readonly Unit[], name: string): Unit | undefined =>
  units.find((unit) => unit.names.includes(name));

const mayBeNegative: ReadonlySet<Quantity> = new Set(["level", "head", "pressure", "temperature"]);
const vulgar: Readonly<Record<string, string>> = {
  "½": " 1/2",
  "¼": " 1/4",
  "¾": " 3/4",
  "⅛": " 1/8",
  "⅜": " 3/8",
  "⅝": " 5/8",
  "⅞": " 7/8",
};

/** One number, perhaps with a fraction, and its unit. */
const term =
  /^\s*(?:(\d+)\s+(\d+)\s*[/⁄]\s*(\d+)|(\d+)\s*[/⁄]\s*(\d+)|(\d[\d., \u00a0\u202f\u2009]*\d|\d|[.,]\d+))\s*([^\d\s.,+\-−][^\d+\-−]*)?/u;

/** Reads what a person typed. A bare number is in the unit shown; after feet, in inches. */
export function parseQuantity(quantity: Quantity, typed: string, system: UnitSystem): Result<number, string> {
  const no = (why: string): Result<number, string> => ({
    ok: false,
    error: `${why}; understood are ${understood(quantity)}`,
  });
  const text = typed.trim();
  if (text === "") return no("nothing was typed");
  if (text.length > 60) return no("that is too long");
  const [, sign = "", rest = ""] =
    /^([+±\-−–]?)\s*(.*)$/su.exec(text.replace(/[½¼¾⅛⅜⅝⅞]/g, (f) => vulgar[f] ?? f)) ?? [];
  const negative = sign === "-" || sign === minus || sign === "–";
  const sum = sumOfTerms(quantity, rest, system);
  if (sum === null) return no(`"${short(text)}" is not clear`);
  if (negative && sum !== 0 && !mayBeNegative.has(quantity)) return no("it can not be negative");
  if (quantity === "temperature") return { ok: true, value: celsius(negative ? -sum : sum, rest, system) };
  return { ok: true, value: negative && sum !== 0 ? -sum : sum };
}

const short = (text: string): string => (text.length <= 24 ? text : `${text.slice(0, 23)}…`);

const celsius = (degrees: number, text: string, system: UnitSystem): number => {
  const fahrenheit = /f\s*$/i.test(text) || (system === "us" && !/c\s*$/i.test(text));
  return fahrenheit ? (degrees - 32) / 1.8 : degrees;
};

/** What a bare number is in: after feet inches, after anything else nothing, alone the unit shown. */
function bareUnit(last: Unit | null, quantity: Quantity, system: UnitSystem): string | null {
  if (last) return last.si === foot ? "in" : null;
  return shownUnit(quantity, system).toLowerCase();
}

function sumOfTerms(quantity: Quantity, text: string, system: UnitSystem): number | null {
  const units = unitsOf(quantity);
  let rest = text;
  let sum = 0;
  let last: Unit | null = null;
  while (rest.trim() !== "") {
    const found = matchTerm(rest, units);
    if (!found) return null;
    let unit = found.unit;
    if (unit === null) {
      // "8 ft 3": inches follow feet.
      const name: string | null = bareUnit(last, quantity, system);
      if (name === null) return null;
      unit = unitNamed(units, name) ?? { names: [], si: 1, grouped: true };
    }
    // Only smaller units follow larger ones: 8 ft 3 in, 2 m 40 cm.
    if (last && !(unit.si < last.si)) return null;
    const value = found.value(unit.grouped === true);
    if (value === null) return null;
    sum += value * unit.si;
    last = unit;
    rest = found.rest;
  }
  return last ? sum : null;
}

interface Term {
  readonly value: (grouped: boolean) => number | null;
  readonly unit: Unit | null;
  readonly rest: string;
}

function matchTerm(text: string, units: readonly Unit[]): Term | null {
  const match = term.exec(text);
  if (!match) return null;
  const [whole, mixed, over, under, top, bottom, plain, word = ""] = match;
  const named = word.trim().toLowerCase();
  const unit = named === "" ? null : (unitNamed(units, named) ?? unitNamed(units, named.replace(/\.$/, "")));
  if (unit === undefined) return null;
  const fraction = (a: string, b: string): number | null => (Number(b) === 0 ? null : Number(a) / Number(b));
  return {
    unit,
    rest: text.slice(whole.length),
    value: (grouped) => {
      if (mixed !== undefined) {
        const part = fraction(over as string, under as string);
        return part === null ? null : Number(mixed) + part;
      }
      if (top !== undefined) return fraction(top, bottom as string);
      return readDecimal(plain as string, grouped);
    },
  };
}

/** Comma or point decimals, with or without thousands set apart. */
function readDecimal(text: string, grouped: boolean): number | null {
  const tight = text.replace(/(?<=\d)[ \u00a0\u202f\u2009](?=\d{3}(?!\d))/g, "");
  if (!/^[\d.,]+$/.test(tight)) return null;
  const points = [...tight.matchAll(/[.,]/g)].map((m) => m[0]);
  const kinds = new Set(points);
  if (kinds.size === 2) {
    // The last sign is the decimal one; the other may only set thousands apart.
    const decimal = points.at(-1) as string;
    if (points.filter((sign) => sign === decimal).length > 1) return null;
    const [whole = "", part = ""] = tight.split(decimal);
    return /^\d{1,3}([.,]\d{3})+$/.test(whole) ? Number(`${whole.replace(/[.,]/g, "")}.${part}`) : null;
  }
  if (points.length > 1) return /^[1-9]\d{0,2}([.,]\d{3})+$/.test(tight) ? Number(tight.replace(/[.,]/g, "")) : null;
  if (grouped && /^[1-9]\d{0,2},\d{3}$/.test(tight)) return Number(tight.replace(",", ""));
  const value = Number(tight.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}
