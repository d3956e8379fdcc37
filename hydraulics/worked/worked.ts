/** A figure with the formula that it follows from, the numbers put in and the source: so that anybody can do it again.
 * Always in SI, whatever the sheet shows. The expression is arithmetic as it is written on paper (· / + − ^ and
 * brackets, √); worked out again from its own printed numbers it gives its printed result within rounding, which
 * test/sweep/worked.test.ts does for every part of every sample. */
export interface Worked {
  /** what it gives: `Friction` */
  readonly what: string;
  /** in letters: `h = 10.67·L·Q^1.852 / (C^1.852·D^4.8704)` */
  readonly law: string;
  /** in numbers, to the right of its `=` */
  readonly expression: string;
  readonly result: number;
  readonly unit: string;
  readonly source: string;
}

/** Six digits, plain: no power of ten in letters, and no noise of rounding. */
export function printed(value: number): string {
  const six = Math.abs(value) < 1e-12 ? 0 : Number(value.toPrecision(6));
  const text = String(six);
  return text.includes("e") ? six.toFixed(15).replace(/0+$/, "") : text;
}

/** The result as it is printed: four digits. */
export const printedResult = (value: number): string => {
  const four = Number(value.toPrecision(4));
  const text = String(four);
  return text.includes("e") ? four.toFixed(12).replace(/0+$/, "") : text;
};

export const lineOf = ({ expression, result, unit }: Worked): string =>
  `${expression} = ${printedResult(result)} ${unit}`.trim();
