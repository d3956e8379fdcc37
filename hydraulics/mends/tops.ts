/** The highest stretch of a line: its level and the middle of it. */
import { lineLength } from "../document/geometry.ts";
import type { Point } from "../document/section.ts";

export interface Top {
  readonly level: number;
  /** m along the line */
  readonly at: number;
}

/** m within which points are of one level */
const flat = 1e-6;

export function topOf(line: readonly Point[]): Top {
  const level = Math.max(...line.map(([, z]) => z));
  const first = line.findIndex(([, z]) => z >= level - flat);
  let last = first;
  while ((line[last + 1]?.[1] ?? Number.NEGATIVE_INFINITY) >= level - flat) last++;
  const start = lineLength(line.slice(0, first + 1));
  const end = lineLength(line.slice(0, last + 1));
  return { level, at: (start + end) / 2 };
}
