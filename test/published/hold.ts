/** Holds our laws against published.json: each entry once, within the tolerance that the entry states. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type Lists, type Numbers, strict } from "./given.ts";

interface Entry {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: number;
  readonly unit: string;
  readonly source: string;
  readonly provenance: string;
  readonly tolerance: { readonly kind: string; readonly value: number };
}

const entries = JSON.parse(readFileSync(new URL("./published.json", import.meta.url), "utf8")) as readonly Entry[];
export const published: ReadonlyMap<string, Entry> = new Map(entries.map((entry) => [entry.id, entry]));
export const entryCount = entries.length;

type Law = (given: Numbers, lists: Lists) => number;

/** What we set against an entry. */
export type Check =
  /** a law of ours, fed with the entry's inputs */
  | Law
  /** a default of ours, set against a table: `because` says why it is another number, where it is one */
  | { readonly ours: number; readonly because?: string }
  /** a value that we do not meet: by how much (ours/theirs − 1, so printed that it is checked), and why */
  | { readonly law: Law; readonly off: number; readonly because: string };

export type Checks = Readonly<Record<string, Check>>;

export function holdAgainst(checks: Checks): void {
  for (const [id, check] of Object.entries(checks)) {
    const entry = published.get(id);
    if (!entry) throw new Error(`published.json has no ${id}`);
    const { quantity, expected, unit, source, provenance, tolerance, inputs } = entry;
    const law: Law = typeof check === "function" ? check : "law" in check ? check.law : () => check.ours;
    test(`${id}: ${quantity} is ${expected} ${unit} (${source}; ${provenance})`, () => {
      const allowed = tolerance.kind === "relative" ? tolerance.value * Math.abs(expected) : tolerance.value;

      const ours = law(strict<Numbers>(id, inputs), strict<Lists>(id, inputs));

      const apart = Math.abs(ours - expected);
      if (typeof check === "object" && "off" in check) {
        expect(apart, `${ours} meets ${expected} after all: drop the exception`).toBeGreaterThan(allowed);
        expect(ours / expected - 1, check.because).toBeCloseTo(check.off, 3);
        return;
      }
      expect(apart, `ours ${ours}, theirs ${expected}`).toBeLessThanOrEqual(allowed * (1 + 1e-9));
      if (typeof check === "object" && apart > 1e-6 * Math.abs(expected)) {
        expect(check.because, `our default ${ours} differs from ${expected}: say why`).toBeTruthy();
      }
    });
  }
}
