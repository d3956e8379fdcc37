/** Figures as the file has them: what a problem says to whoever wrote the file. */
import type { Amounts, Measure } from "../section.ts";

const units: Readonly<Record<Measure, string>> = {
  level: " m",
  length: " m",
  bore: " m",
  head: " m",
  flow: " m³/s",
  power: " W",
  temperature: " °C",
  share: "",
  number: "",
};

export const asInFile: Amounts = {
  one: (value, measure) => `${value}${units[measure]}`,
  range: (min, max, measure) => `${min} to ${max}${units[measure]}`,
  found: String,
};
