/** Sentences of results are written in metres and litres, whoever reads them; a sheet in feet and gallons shows the
 * same sentences in its own units. Only figures that carry their unit, and levels with their sign, are touched. */
import {
  formatBore,
  formatFlow,
  formatLength,
  formatLevel,
  formatMass,
  formatVelocity,
  formatVolume,
  type UnitSystem,
} from "./units.ts";

const figure = /([+−±]\d+\.\d{3})(?!\d|\.\d)|(\d[\d,]*(?:\.\d+)?) (L\/h|m³\/h|m\/s|mm|m³|L|m|kg)(?![\p{L}\d/³²])/gu;

export function sentenceIn(text: string, system: UnitSystem): string {
  if (system === "metric") return text;
  return text.replace(
    figure,
    (whole, level: string | undefined, amount: string | undefined, unit: string | undefined) => {
      if (level !== undefined) return formatLevel(Number(level.replace("−", "-").replace(/[+±]/, "")), system);
      const value = Number((amount ?? "").replaceAll(",", ""));
      return Number.isFinite(value) ? amountIn(value, unit ?? "", system, whole) : whole;
    },
  );
}

function amountIn(value: number, unit: string, system: UnitSystem, asItWas: string): string {
  switch (unit) {
    case "L/h":
      return formatFlow(value / 3.6e6, system);
    case "m³/h":
      return formatFlow(value / 3600, system);
    case "m/s":
      return formatVelocity(value, system);
    case "mm":
      return formatBore(value / 1000, system);
    case "m³":
      return formatVolume(value, system);
    case "L":
      return formatVolume(value / 1000, system);
    case "m":
      return formatLength(value, system);
    case "kg":
      return formatMass(value, system);
    default:
      return asItWas;
  }
}
