/** The units that people type, and the SI each stands for. The only place in the editor that knows a gallon. */
import {
  type FigureQuantity,
  foot,
  gallon,
  headPressure,
  inch,
  pound,
  psi,
  type UnitSystem,
} from "../../hydraulics/index.ts";

export type Quantity = FigureQuantity;

const hour = 3600;

/** A unit as typed, lower case, and the SI it stands for. */
export interface Unit {
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
    { names: ["m³/h", "cbm/h"], si: 1 / hour },
    { names: ["m³/s"], si: 1 },
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
    { names: ["m³", "cbm"], si: 1 },
    { names: ["gal", "gallon", "gallons", "us gal"], si: gallon, grouped: g },
    { names: ["ft³", "cu ft"], si: foot ** 3 },
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

export const unitsOf = (quantity: Quantity): readonly Unit[] => known[quantity === "pressure" ? "head" : quantity];

export const unitNamed = (units: readonly Unit[], name: string): Unit | undefined =>
  units.find((unit) => unit.names.includes(name));

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
