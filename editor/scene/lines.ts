/** Pieces of a pipe's line. */
import { lineLength, type Point } from "../../hydraulics/index.ts";

export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
export const between = (a: Point, b: Point, share: number): Point => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
];

/** The line from its start up to `at` metres. */
export function upTo(line: readonly Point[], at: number): readonly Point[] {
  let rest = at;
  const part: Point[] = [line[0] as Point];
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1] as Point;
    const b = line[i] as Point;
    const length = distance(a, b);
    if (rest <= length) {
      if (rest > 0 && length > 0) part.push(between(a, b, rest / length));
      return part;
    }
    part.push(b);
    rest -= length;
  }
  return part;
}

/** The direction of flow along the line at `at` metres: degrees clockwise on the paper, 0 to the right. */
export function turnAt(line: readonly Point[], at: number): number {
  let rest = Math.min(Math.max(at, 1e-9), lineLength(line));
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1] as Point;
    const b = line[i] as Point;
    const length = distance(a, b);
    if (length > 0 && rest <= length + 1e-9) return (Math.atan2(a[1] - b[1], b[0] - a[0]) * 180) / Math.PI;
    rest -= length;
  }
  return 0;
}

/** From the start on for as long as the line stays at or under a level. */
export function whileUnder(line: readonly Point[], level: number): readonly Point[] {
  const first = line[0] as Point;
  if (first[1] > level) return [];
  const part: Point[] = [first];
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1] as Point;
    const b = line[i] as Point;
    if (b[1] > level) {
      if (a[1] < level) part.push(between(a, b, (level - a[1]) / (b[1] - a[1])));
      return part;
    }
    part.push(b);
  }
  return part;
}
