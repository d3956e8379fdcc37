import { most } from "../limits.ts";
import type { Amounts, Measure, Problem } from "../section.ts";
import { asInFile } from "./amounts.ts";
import { describe } from "./describe.ts";
import { type Place, pathOf } from "./place.ts";

/** Words that name a figure are made in the reader's units. */
export type Words = string | ((amounts: Amounts) => string);

/** Collects what is wrong with a file. All of it is counted, the first hundred are kept: a file that is
 * wrong throughout must not fill the memory with complaints. */
export class Problems {
  private readonly kept: Problem[] = [];
  private total = 0;
  private readonly amounts: Amounts;

  constructor(amounts: Amounts = asInFile) {
    this.amounts = amounts;
  }

  /** `expected` is in the user's words and goes on from "expected …". */
  add(at: Place | null, expected: Words, found: unknown): void {
    this.addWords(at, expected, () => describe(found));
  }

  /** The same of a number: a reader is told it in the units that the reader is shown. */
  addNumber(at: Place | null, expected: Words, found: unknown, measure: Measure): void {
    this.addWords(at, expected, (amounts) =>
      typeof found === "number" ? amounts.found(found, measure) : describe(found),
    );
  }

  /** The same, with the words for what was found. */
  addWords(at: Place | null, expected: Words, found: Words): void {
    this.total++;
    if (this.kept.length >= most.problems) return;
    this.kept.push({ path: pathOf(at), expected: this.said(expected), found: this.said(found) });
  }

  private said(words: Words): string {
    return typeof words === "string" ? words : words(this.amounts);
  }

  get count(): number {
    return this.total;
  }

  list(): readonly Problem[] {
    if (this.total <= this.kept.length) return this.kept;
    return [
      ...this.kept,
      {
        path: "",
        expected: `a file with fewer faults: only the first ${this.kept.length} are listed`,
        found: `${this.total} of them`,
      },
    ];
  }
}
