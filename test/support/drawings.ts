/** Random drawings as the cases of a law, and what is said of those that break it.
 *
 * DRAWINGS says how many of them a run looks at. A case has a name by which `randomSection` draws it again. Cases come
 * the smallest first, and the first one that breaks a law is shrunk on top: parts are left out as long as what remains
 * can be read and still breaks it. */
import { expect } from "vitest";
import { readSection } from "../../hydraulics/document/read.ts";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import { randomSection, type Wanted } from "./randomSection.ts";

const usualCount = 1000;

export type Mode = "sensible" | "wild";
export const modes: readonly Mode[] = ["sensible", "wild"];

/** How many drawings `manyDrawings` gives; other runs have more or fewer of them in the same measure. */
export const drawingCount = Number(process.env.DRAWINGS ?? usualCount);

/** of `usualCount`: mostly small ones */
const mix: readonly (readonly [mode: Mode, size: number, share: number])[] = [
  ["sensible", 1, 120],
  ["sensible", 2, 70],
  ["sensible", 3, 25],
  ["sensible", 4, 12],
  ["wild", 1, 480],
  ["wild", 2, 260],
  ["wild", 3, 55],
  ["wild", 4, 30],
];

export function* manyDrawings(): Generator<Required<Wanted>> {
  for (const [mode, size, share] of mix) {
    const count = Math.ceil((share * drawingCount) / usualCount);
    for (let seed = 1; seed <= count; seed++) yield { seed, size, mode };
  }
}

export interface Case {
  readonly wanted: Wanted;
  /** `seed/size` */
  readonly tag: string;
  readonly section: Section;
}

/** Seeded drawings of a mode, so many of each size from 1 on in a run of the usual count. */
export function drawings(mode: Mode, bySize: readonly number[]): Case[] {
  const times = drawingCount / usualCount;
  return bySize.flatMap((count, k) =>
    Array.from({ length: Math.round(count * times) }, (_, index) => {
      const wanted = { seed: index + 1, size: k + 1, mode };
      return { wanted, tag: `${wanted.seed}/${wanted.size}`, section: randomSection(wanted) };
    }),
  );
}

export const nameOf = ({ seed, size, mode }: Wanted): string =>
  `randomSection({ seed: ${seed}, size: ${size}, mode: "${mode}" })`;

/** What is wrong with a drawing, in words; none where the law holds or does not bind. */
export type Law<C extends Case> = (one: C) => readonly string[];

export interface Cases<C extends Case> {
  readonly cases: readonly C[];
  /** makes a case of a section again, to shrink one; null where it is none (it does not converge, say) */
  readonly again: (section: Section, wanted: Wanted) => C | null;
}

/** Fails with every case that breaks the law, and the first of them shrunk.
 * @param except what is known and left open, by tag, with the reason */
export function expectLaw<C extends Case>(
  { cases, again }: Cases<C>,
  law: Law<C>,
  { except = {}, atLeast = 1 }: { except?: Readonly<Record<string, string>>; atLeast?: number } = {},
): void {
  const broken = cases
    .filter(({ tag }) => !(tag in except))
    .map((one) => ({ one, words: law(one) }))
    .filter(({ words }) => words.length > 0);
  const said = broken.slice(0, 25).flatMap(({ one, words }) => `${nameOf(one.wanted)} ${words.join("; ")}`);
  const first = broken[0]?.one;
  if (first) {
    const least = shrunk(first.section, (section) => {
      const smaller = again(section, first.wanted);
      return smaller !== null && law(smaller).length > 0;
    });
    said.push(`the first with ${least.parts.size} of its ${first.section.parts.size} parts:`, writeSection(least));
  }

  expect(cases.length, "cases tried").toBeGreaterThanOrEqual(atLeast);
  expect(broken.length, `${broken.length} of ${cases.length}\n${said.join("\n")}`).toBe(0);
}

/** As few parts as still break it. A part goes together with whatever cannot be read without it. */
export function shrunk(section: Section, breaks: (section: Section) => boolean): Section {
  let least = section;
  for (let again = true; again; ) {
    again = false;
    for (const id of [...least.parts.keys()]) {
      const smaller = without(least, id);
      if (!smaller || !breaks(smaller)) continue;
      least = smaller;
      again = true;
    }
  }
  return least;
}

/** The section without a part and without those that name it, if it can be read. */
function without(section: Section, id: PartId): Section | null {
  if (!section.parts.has(id)) return null;
  const gone = new Set([id]);
  for (let found = true; found; ) {
    found = false;
    for (const part of section.parts.values()) {
      if (gone.has(part.id) || !named(part).some((name) => gone.has(name))) continue;
      gone.add(part.id);
      found = true;
    }
  }
  const left = new Map([...section.parts].filter(([key]) => !gone.has(key)));
  if (left.size === 0) return null;
  const read = readSection(writeSection({ ...section, parts: left }));
  return read.ok ? read.value : null;
}

/** Ids of parts that a part speaks of: its ends, what it sits on, what it stands in or spills into. */
function named(value: unknown): PartId[] {
  if (typeof value === "string") return [value as PartId];
  if (Array.isArray(value)) return value.flatMap(named);
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => (key === "id" || key === "text" ? [] : named(inner)));
}

/** Every place in a result where a number is not one. */
export function notFinite(value: unknown, path: string): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value instanceof Map) return [...value].flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
  if (Array.isArray(value)) return value.flatMap((inner, k) => notFinite(inner, `${path}[${k}]`));
  if (value !== null && typeof value === "object")
    return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
  return [];
}
