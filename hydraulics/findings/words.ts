/** How names and figures are written in the sentences of findings. Levels, litres and times: `powerCut/words.ts`. */
import { listed } from "../document/listed.ts";
import type { PartId, Section } from "../document/section.ts";
import { nameOf, tenthsOrWhole } from "../powerCut/words.ts";

const longestName = 40;

/** A part's label, or its id; a long label is cut, so that a sentence stays one. */
export function called(section: Section, id: PartId): string {
  const name = nameOf(section, id).trim() || id;
  return name.length <= longestName ? name : `${name.slice(0, longestName - 1).trimEnd()}…`;
}

/** `1,234 L/h` */
export const flowWords = (flow: number): string => `${tenthsOrWhole(Math.abs(flow) * 3.6e6)} L/h`;

/** Litres a day of a flow. */
export const dailyWords = (flow: number): string => `${tenthsOrWhole(Math.abs(flow) * 8.64e7)} L a day`;

/** `14 mm`, `3.2 mm`, `0.12 mm` */
export function mmWords(metres: number): string {
  const mm = metres * 1000;
  const size = Math.abs(mm);
  // Under a thousandth of a millimetre it is the solver's rounding.
  if (size < 0.001) return "0 mm";
  return `${size >= 10 ? mm.toFixed(0) : size >= 1 ? mm.toFixed(1) : Number(mm.toPrecision(2))} mm`;
}

/** `34 mm`, `67.8 mm` */
export const boreWords = (bore: number): string => `${Number((bore * 1000).toFixed(1))} mm`;

export const speedWords = (velocity: number): string => `${velocity.toFixed(2)} m/s`;

export const percentWords = (share: number): string => `${Number((share * 100).toPrecision(2))} %`;

/** `6.2`, `14` */
export const numberWords = (value: number): string => (Math.abs(value) >= 10 ? value.toFixed(0) : value.toPrecision(2));

/** `pond`, `pond and tub`, `pond, tub and 3 more` */
export function listWords(section: Section, ids: readonly PartId[]): string {
  const shown = ids.slice(0, ids.length > 3 ? 2 : 3).map((id) => called(section, id));
  const more = ids.length - shown.length;
  if (more > 0) return `${shown.join(", ")} and ${more} more`;
  return listed(shown);
}
