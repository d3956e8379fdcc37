/** Figures in the words of a refusal, as the field shows them: the units of the sheet, shares in percent. */
import type { Amounts, Measure } from "../../hydraulics/index.ts";
import { exactText, format, formatBore, formatNumber, type UnitSystem } from "./units.ts";

/** No field holds a figure as large; told whole it would be a row of noughts. */
const endless = 1e7;

export function refusalFigures(system: UnitSystem): Amounts {
  const bound = (value: number, measure: Measure): string => {
    if (measure === "number") return formatNumber(value, 7, 6);
    if (measure === "share") return `${formatNumber(value * 100, 4, 2)} %`;
    // A tape measure's eighths of an inch make nothing of a millimetre.
    if (measure === "length" && Math.abs(value) < 0.1) return formatBore(value, system);
    // `−100 m`, not `−100.000 m`
    if (measure === "level") return format("level", value, system).replace(/\.0+(?= )/, "");
    return format(measure, value, system);
  };
  // With six digits: rounded, what was found might look like what was wanted.
  const one = (value: number, measure: Measure): string => {
    if (!Number.isFinite(value)) return "no number";
    if (Math.abs(value) > endless)
      return `${value < 0 ? "less than" : "more than"} ${bound(endless * Math.sign(value), measure === "level" ? "length" : measure)}`;
    if (measure === "number" || measure === "share") return bound(value, measure);
    return exactText(measure, value, system);
  };
  return { one, found: one, range: (min, max, measure) => `${bound(min, measure)} to ${bound(max, measure)}` };
}
