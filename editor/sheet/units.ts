/** What is typed, against the SI inside, and the text that a field holds while it is edited. How figures are shown stands in
 * the library, whose reports show the same ones; it is handed on here, so that the rest of the editor has one place to
 * ask. The only place in the editor that knows a gallon. */
import {
  type FigureQuantity,
  foot,
  formatTemperature,
  gallon,
  headPressure,
  inch,
  pound,
  psi,
  type Result,
  type UnitSystem,
} from "../../hydraulics/index.ts";

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

export type Quantity = FigureQuantity;

const hour = 3600;
const minus = "−";

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
