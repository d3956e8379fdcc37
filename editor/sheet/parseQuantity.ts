/** What a person typed, against the SI inside. */
import { foot, type Result, type UnitSystem } from "../../hydraulics/index.ts";
import { type Quantity, shownUnit, type Unit, unitNamed, unitsOf } from "./knownUnits.ts";

const minus = "−";

interface Examples {
  readonly metric: string;
  readonly us: string;
}

/** What a field is for, where that says more than what it measures: a wall is not as rough as a pipe is wide. */
export type FieldUse = "roughness" | "grain" | "openingHead" | "place";

const examples: Readonly<Record<Quantity | FieldUse, Examples>> = {
  length: { metric: "2.4 m, 240 cm or 8 ft 3 in", us: "8 ft 3 in, 99 in or 2.4 m" },
  level: { metric: "+0.45 m, -30 mm or 1 ft 6 in", us: "1 ft 6 in, -1.2 in or +0.45 m" },
  bore: { metric: "34 mm or 1 1/2 in", us: "1 1/2 in or 34 mm" },
  flow: { metric: "600 L/h, 0.5 L/s, 160 gph or 3 gpm", us: "160 gph, 3 gpm, 600 L/h or 0.5 L/s" },
  velocity: { metric: "1.2 m/s or 4 ft/s", us: "4 ft/s or 1.2 m/s" },
  volume: { metric: "310 L, 2.4 m³ or 80 gal", us: "80 gal, 310 L or 2.4 m³" },
  head: { metric: "2.4 m, 8 ft or 3.5 psi", us: "8 ft, 3.5 psi or 2.4 m" },
  pressure: { metric: "2.4 m, 8 ft or 3.5 psi", us: "3.5 psi, 8 ft or 2.4 m" },
  mass: { metric: "420 kg or 900 lb", us: "900 lb or 420 kg" },
  power: { metric: "28 W", us: "28 W" },
  money: { metric: "0.30", us: "0.30" },
  temperature: { metric: "15 °C or 59 °F", us: "59 °F or 15 °C" },
  roughness: { metric: "0.15 mm or 0.006 in", us: "0.006 in or 0.15 mm" },
  grain: { metric: "16 mm or 5/8 in", us: "5/8 in or 16 mm" },
  openingHead: { metric: "0.35 m, 1 ft 2 in or 0.5 psi", us: "1 ft 2 in, 0.5 psi or 0.35 m" },
  place: { metric: "2.4 m, -30 cm or 8 ft 3 in", us: "8 ft 3 in, -12 in or 2.4 m" },
};

/** What is understood in this field, for a refusal: first as the sheet shows it. */
const understood = (asked: Quantity | FieldUse, system: UnitSystem): string => examples[asked][system];

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

/** Reads what a person typed. A bare number is in the unit shown; after feet, in inches.
 * @param use by which a refusal finds examples that fit the field */
export function parseQuantity(
  quantity: Quantity,
  typed: string,
  system: UnitSystem,
  use?: FieldUse,
): Result<number, string> {
  const no = (why: string): Result<number, string> => ({
    ok: false,
    error: `${why}; understood are ${understood(use ?? quantity, system)}`,
  });
  const text = typed.trim();
  if (text === "") return no("nothing was typed");
  if (text.length > 60) return no("that is too long");
  const [, sign = "", rest = ""] = /^([+±\-−–]?)\s*(.*)$/su.exec(spelledOut(quantity, text)) ?? [];
  const negative = sign === "-" || sign === minus || sign === "–";
  const sum = sumOfTerms(quantity, rest, system);
  if (sum === null) return no(`"${short(text)}" is not clear`);
  if (negative && sum !== 0 && !mayBeNegative.has(quantity)) return no("it can not be negative");
  if (quantity === "temperature") return { ok: true, value: celsius(negative ? -sum : sum, rest, system) };
  return { ok: true, value: negative && sum !== 0 ? -sum : sum };
}

/** `1-1/2 in` is one and a half, as inch sizes are written; what stands on both sides of any other dash is not clear. */
const hyphened = /(?<=\d)[-\u2010\u2011–](?= ?(\d+)\s*[/⁄]\s*(\d+))/gu;
/** `8'-3"`, as feet and inches stand on a plan. */
const feetAndInches = /(?<=ft|feet|foot|['′’])[-\u2010\u2011–](?=\d)/giu;

/** Fractions and cubes as they are read. A 3 after feet is a cube only where it can not be inches. */
function spelledOut(quantity: Quantity, text: string): string {
  const spelled = text
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (f) => vulgar[f] ?? f)
    .replace(hyphened, (dash, over: string, under: string) => (Number(over) < Number(under) ? " " : dash))
    .replace(feetAndInches, " ");
  return quantity === "flow" || quantity === "volume" ? spelled.replace(/(?<=m|ft)\^?3/gi, "³") : spelled;
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
