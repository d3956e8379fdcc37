import type { GradePoint } from "../../hydraulics/index.ts";

/** The grade line of a pipe with the places added where it passes through the axis, so that what is marked as below
 * the atmosphere begins and ends there. Straight between two neighbouring points. */
export function withCrossings(line: readonly GradePoint[]): readonly GradePoint[] {
  return line.flatMap((point, k): readonly GradePoint[] => {
    const before = line[k - 1];
    if (!before || before.grade === null || point.grade === null || before.at === point.at) return [point];
    const a = before.grade - before.z;
    const b = point.grade - point.z;
    if (a * b >= 0) return [point];
    const t = a / (a - b);
    const mix = (p: number, q: number): number => p + (q - p) * t;
    const z = mix(before.z, point.z);
    return [{ at: mix(before.at, point.at), x: mix(before.x, point.x), z, grade: z }, point];
  });
}
