/** How levels, times and amounts are written in the sentences of results: metres above datum, and one digit more of
 * litres than is shown (`report/sentence.ts` rounds them as every other figure, or turns them into gallons). */
import type { PartId, Section } from "../document/section.ts";

/** `+0.474`, `−0.030`, `±0.000` */
export function levelWords(level: number): string {
  const text = Math.abs(level).toFixed(3);
  if (text === "0.000") return "±0.000";
  return `${level > 0 ? "+" : "−"}${text}`;
}

/** `2,112 L`, `132.4 L`, `61.7 L`, `0.62 L` */
export const litreWords = (volume: number): string => `${tenthsOrWhole(volume * 1000)} L`;

export function tenthsOrWhole(amount: number): string {
  if (amount >= 1000) return Math.round(amount).toLocaleString("en-US");
  return Number(amount >= 10 ? amount.toFixed(1) : amount.toPrecision(2)).toString();
}

/** A part's label, or its id where it has none. */
export const nameOf = (section: Section, id: PartId): string => section.parts.get(id)?.label || id;

/** The text with a capital at its start: a part without a label is called by its id,
 * `supply rises` → `Supply rises`. */
export const started = (text: string): string => text.replace(/^\p{Ll}/u, (letter) => letter.toUpperCase());
