/** A thousand random drawings for a property run, mostly small: repeatable, each named by its seed, size and mode.
 * DRAWINGS sets how many. */
import type { Wanted } from "./randomSection.ts";

export const drawings = Number(process.env.DRAWINGS ?? 1000);

export type Mode = "sensible" | "wild";

/** of a thousand */
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
    const count = Math.ceil((share * drawings) / 1000);
    for (let seed = 1; seed <= count; seed++) yield { seed, size, mode };
  }
}

export const named = ({ seed, size, mode }: Wanted): string =>
  `randomSection({ seed: ${seed}, size: ${size}, mode: "${mode}" })`;
