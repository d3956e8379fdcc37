import { most } from "../limits.ts";
import type { Problem } from "../section.ts";
import { describe } from "./describe.ts";
import { type Place, pathOf } from "./place.ts";

/** Collects what is wrong with a file. All of it is counted, the first hundred are kept: a file that is
 * wrong throughout must not fill the memory with complaints. */
export class Problems {
  private readonly kept: Problem[] = [];
  private total = 0;

  /** `expected` is in the user's words and goes on from "expected …". */
  add(at: Place | null, expected: string, found: unknown): void {
    this.addWords(at, expected, () => describe(found));
  }

  /** The same, with the words for what was found. */
  addWords(at: Place | null, expected: string, found: string | (() => string)): void {
    this.total++;
    if (this.kept.length >= most.problems) return;
    this.kept.push({ path: pathOf(at), expected, found: typeof found === "string" ? found : found() });
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
