/** What a place or a size is kept to in the document. */
import type { Point } from "../../../hydraulics/index.ts";

const roundedTo = (value: number, parts: number): number => {
  const rounded = Math.round(value * parts) / parts;
  return rounded === 0 ? 0 : rounded;
};

/** To the millimetre: what is reckoned from a pointer or along a slope. Finer is noise. */
export const round = (value: number): number => roundedTo(value, 1e3);

/** Sums of places that are round already, in millimetres or in fractions of an inch: without the last digits, in which
 * two ways to one place differ. Half an inch twenty-four times is a foot. */
export const even = (value: number): number => roundedTo(value, 1e9);

export const evenPoint = ([x, z]: Point): Point => [even(x), even(z)];
