/** How levels, times and amounts are written in the sentences of results: metres above datum, sensible digits. */
import type { PartId, Section } from "../document/section.ts";

/** `+0.474`, `−0.030`, `±0.000` */
export function levelWords(level: number): string {
  const text = Math.abs(level).toFixed(3);
  if (text === "0.000") return "±0.000";
  return `${level > 0 ? "+" : "−"}${text}`;
}

export function litreWords(volume: number): string {
  const litres = volume * 1000;
  return `${litres >= 100 ? Math.round(litres).toLocaleString("en-US") : litres.toPrecision(2)} L`;
}

export function timeWords(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)} s`;
  if (seconds < 90 * 60) return `${Math.round(seconds / 60)} min`;
  return `${(seconds / 3600).toFixed(1)} h`;
}

/** A part's label, or its id where it has none. */
export const nameOf = (section: Section, id: PartId): string => section.parts.get(id)?.label || id;

/** The text with a capital at its start: a part without a label is called by its id, `supply rises` → `Supply rises`. */
export const started = (text: string): string => text.replace(/^\p{Ll}/u, (letter) => letter.toUpperCase());
