/** What a place or a size is kept to in the document. */
import type { Point } from "../../../hydraulics/index.ts";

const roundedTo = (value: number, parts: number): number => {
  const rounded = Math.round(value * parts) / parts;
  return rounded === 0 ? 0 : rounded;
};

/** To the millimetre: what is reckoned from a pointer or along a slope. Finer is noise. */
export const round = (value: number): number => roundedTo(value, 1e3);

/** To a tenth of a millimetre: what is reckoned along a line, step by step. Of half an inch nothing is lost. */
export const fine = (value: number): number => roundedTo(value, 1e4);

/** Sums of places that are round already, in millimetres or in fractions of an inch: without the last digits, in which
 * two ways to one place differ. Half an inch twenty-four times is a foot. */
export const even = (value: number): number => roundedTo(value, 1e9);

export const evenPoint = ([x, z]: Point): Point => [even(x), even(z)];
