/** Why a figure of the maker's curve waits in its field, and which points made way for others, in the units of the sheet. */
import type { UnitSystem } from "../sheet/units.ts";
import { type CurveRows, rowsMoved, type Side, type Waiting } from "./curveTyping.ts";
import { exactQuantity, readQuantity } from "./quantity.ts";

/** Null where nothing waits.
 * @param refusal what a drawing has against the figure by itself: it is larger than any pump's */
export function whyWaiting(
  rows: CurveRows,
  row: number,
  side: Side,
  units: UnitSystem,
  refusal: (value: number) => string,
): string | null {
  const waits = rows[row]?.waiting[side] ?? null;
  if (waits === null) return null;
  if (waits.value === null) return unread(waits, side, units);
  const { quantity } = names[side];
  const wanted = wantedBeside(rows, row, side, waits.value, units);
  if (wanted === null) return refusal(waits.value);
  return `${cellName(row, side)}: expected ${wanted}, found ${exactQuantity(quantity, waits.value, units)}.`;
}

export const cellName = (row: number, side: Side): string => `${side === 0 ? "Flow" : "Head"} of point ${row + 1}`;

const names = [
  { quantity: "flow", why: "flows rise from point to point" },
  { quantity: "head", why: "heads fall as flow rises" },
] as const;

function unread({ text }: Waiting, side: Side, units: UnitSystem): string {
  const read = readQuantity(names[side].quantity, text, units);
  return read.ok ? "This was not clear." : read.error;
}

/** What would be taken, by the nearest typed row that is in the way: flows rise downwards, heads upwards. */
function wantedBeside(rows: CurveRows, row: number, side: Side, value: number, units: UnitSystem): string | null {
  const { quantity, why } = names[side];
  const what = quantity === "flow" ? "a flow" : "a head";
  const beside = (step: 1 | -1): { other: number; figure: number } | null => {
    for (let other = row + step; other >= 0 && other < rows.length; other += step) {
      const figure = rows[other]?.typed[side] ?? null;
      if (figure !== null) return { other, figure };
    }
    return null;
  };
  const up = side === 0 ? 1 : -1;
  const [lower, upper] = [beside(-up as 1 | -1), beside(up)];
  const than = (word: "above" | "below", { other, figure }: { other: number; figure: number }): string =>
    `${what} ${word} ${exactQuantity(quantity, figure, units)}, the ${quantity} of point ${other + 1}`;
  if (lower && value <= lower.figure) return than("above", lower);
  if (upper && value >= upper.figure) return than("below", upper);
  // Points that are not typed yet must lie between it and nothing.
  const hasLess = side === 0 ? row > 0 : row < rows.length - 1;
  return hasLess && value <= 0 ? `${what} above ${exactQuantity(quantity, 0, units)} (${why})` : null;
}

/** Said, because a table that came from a file is changed where somebody does not look. */
export function whoMadeWay(rows: CurveRows): string | null {
  const moved = rowsMoved(rows).map((row) => String(row + 1));
  const last = moved.pop();
  if (last === undefined) return null;
  return moved.length === 0
    ? `Point ${last} made way for what was typed: type it too.`
    : `Points ${moved.join(", ")} and ${last} made way for what was typed: type them too.`;
}
