/** SI figures for the columns of a report, where every figure of a column has as many decimals. Flows and volumes have
 * as many digits as count, as in sentences and on the sheet (`formats.ts`): one figure is never rounded in two ways. */
import { foot, pound } from "../formulas/units.ts";
import { formatFlow, formatVolume, levelInWords, type UnitSystem } from "./formats.ts";

/** How many decimals a quantity is shown with in each system. One more would promise what no pond holds. */
interface Shown {
  readonly unit: string;
  readonly per: number;
  readonly decimals: number;
}

const quantities = {
  velocity: { metric: { unit: "m/s", per: 1, decimals: 2 }, us: { unit: "ft/s", per: foot, decimals: 2 } },
  upflow: { metric: { unit: "m/h", per: 1 / 3600, decimals: 2 }, us: { unit: "ft/h", per: foot / 3600, decimals: 1 } },
  level: { metric: { unit: "m", per: 1, decimals: 3 }, us: { unit: "ft", per: foot, decimals: 2 } },
  head: { metric: { unit: "m", per: 1, decimals: 2 }, us: { unit: "ft", per: foot, decimals: 2 } },
  /** differences of level: freeboards, losses of media */
  height: { metric: { unit: "mm", per: 0.001, decimals: 0 }, us: { unit: "in", per: foot / 12, decimals: 2 } },
  bore: { metric: { unit: "mm", per: 0.001, decimals: 1 }, us: { unit: "in", per: foot / 12, decimals: 3 } },
  length: { metric: { unit: "m", per: 1, decimals: 2 }, us: { unit: "ft", per: foot, decimals: 1 } },
  /** loss per length */
  gradient: { metric: { unit: "mm/m", per: 0.001, decimals: 1 }, us: { unit: "ft/100 ft", per: 0.01, decimals: 2 } },
  mass: { metric: { unit: "kg", per: 1, decimals: 0 }, us: { unit: "lb", per: pound, decimals: 0 } },
  power: { metric: { unit: "W", per: 1, decimals: 1 }, us: { unit: "W", per: 1, decimals: 1 } },
} as const satisfies Record<string, Record<UnitSystem, Shown>>;

export type Quantity = keyof typeof quantities | "flow" | "volume";

/** The figure with its unit. A small height or mass keeps a decimal, so that 0.4 mm does not become 0. */
export function shown(quantity: Quantity, value: number, units: UnitSystem): string {
  if (quantity === "flow") return formatFlow(value, units);
  if (quantity === "volume") return formatVolume(value, units);
  const { unit, per, decimals } = quantities[quantity][units];
  const figure = (quantity === "level" ? levelInWords(value) : value) / per;
  const kept = decimals === 0 && figure !== 0 && Math.abs(figure) < 10 ? 1 : decimals;
  const digits = figure.toFixed(kept);
  // "-0.00" is 0 to this many decimals.
  return `${Number(digits) === 0 ? digits.replace("-", "") : digits} ${unit}`;
}

/** A share of one, or a ratio. */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
export const ratio = (value: number): string => value.toFixed(value < 10 ? 2 : 0);
