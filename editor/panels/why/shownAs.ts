/** Plots and tables in the sheet's own units: SI to the number that stands on an axis, and the unit it is in. */
import type { Rule, RuleQuantity, SweptQuantity } from "../../../hydraulics/index.ts";
import {
  format,
  formatLoad,
  formatNumber,
  formatTime,
  parseQuantity,
  type Quantity,
  shownUnit,
  type UnitSystem,
} from "../../sheet/units.ts";
import { exactQuantity, readNumber, readQuantity, showNumber, typedQuantity } from "../quantity.ts";

export interface Scale {
  readonly unit: string;
  readonly shown: (si: number) => number;
}

/** By what the reader makes of a bare 0 and a bare 1: the table of units stays in one place. */
export function scaleOf(quantity: Quantity, system: UnitSystem): Scale {
  const at = (text: string): number => {
    const read = parseQuantity(quantity, text, system);
    return read.ok ? read.value : Number(text);
  };
  const zero = at("0");
  const one = at("1");
  return { unit: shownUnit(quantity, system), shown: (si) => (si - zero) / (one - zero) };
}

const unitOf = (quantity: SweptQuantity): Quantity | null => {
  switch (quantity) {
    case "roughness":
    case "grain":
      return "bore";
    case "share":
    case "number":
      return null;
    default:
      return quantity;
  }
};

export const sweptScale = (quantity: SweptQuantity, system: UnitSystem): Scale => {
  const unit = unitOf(quantity);
  if (unit) return scaleOf(unit, system);
  return quantity === "share" ? { unit: "%", shown: (si) => si * 100 } : { unit: "", shown: (si) => si };
};

export const sweptText = (quantity: SweptQuantity, value: number, system: UnitSystem): string => {
  const unit = unitOf(quantity);
  if (quantity === "share") return `${formatNumber(value * 100, 3, 1)} %`;
  return unit ? format(unit, value, system) : formatNumber(value, 4, 4);
};

export const sweptField = (quantity: SweptQuantity, value: number, system: UnitSystem): string =>
  quantity === "share" || quantity === "number"
    ? showNumber(value, quantity === "share")
    : typedQuantity(quantity, value, system);

/** To tell apart two that their field shows alike. */
export const sweptExact = (quantity: SweptQuantity, value: number, system: UnitSystem): string =>
  quantity === "share" || quantity === "number"
    ? showNumber(value, quantity === "share")
    : exactQuantity(quantity, value, system);

export const readSwept = (quantity: SweptQuantity, typed: string, system: UnitSystem) =>
  quantity === "share" || quantity === "number"
    ? readNumber(typed, quantity === "share")
    : readQuantity(quantity, typed, system);

/** A rule's figure with its unit. */
export function ruleText(quantity: RuleQuantity, value: number, system: UnitSystem): string {
  const metric = system === "metric";
  switch (quantity) {
    case "share":
      return `${formatNumber(value * 100, 2, 1)} %`;
    case "turnover":
      return `${formatNumber(value, 2, 2)} an hour`;
    case "upflow":
      return metric ? `${formatNumber(value * 3600, 2, 2)} m/h` : `${formatNumber((value * 3600) / 0.3048, 2, 2)} ft/h`;
    case "length":
      return format("length", value, system);
    case "velocity":
      return format("velocity", value, system);
    case "ratio":
      return formatNumber(value, 2, 2);
    case "flowPerWidth":
      return metric
        ? `${formatNumber(value * 36_000, 3, 0)} L/h per cm`
        : `${formatNumber((value * 3600 * 0.0254) / 0.003785411784, 3, 0)} gph per in`;
    case "time":
      return formatTime(value);
    case "pressure":
      return formatLoad(value, system);
    case "yesNo":
      return value > 0 ? "yes" : "no";
  }
}

/** What a drawing has beside what a rule wants: with as many digits as show on which side of the rule's bounds it lies. */
export function ruleFigure(rule: Rule & { readonly has: number }, system: UnitSystem): string {
  if (rule.quantity !== "ratio") return ruleText(rule.quantity, rule.has, system);
  const within = (value: number): boolean => value >= (rule.least ?? value) && value <= (rule.most ?? value);
  const digits = [2, 3, 4].find((each) => within(Number(rule.has.toPrecision(each))) === within(rule.has)) ?? 5;
  return `${formatNumber(rule.has, digits, digits)}${timesSign(rule)}`;
}

/** A return carries so many times what comes, an outlet is so many times as wide; Froude's number is of nothing. */
export const timesSign = ({ code }: Rule): string => (code === "margin" || code === "outlet-larger" ? " ×" : "");
