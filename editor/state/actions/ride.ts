/** Where a tee or a device goes when its pipe is bent: it stays on its own stretch of the pipe, as near as it
 * can to where it was. A pipe that only moved as a whole takes everything along unchanged. */
import { lineLength, nearestOnLine, type Point } from "../../../hydraulics/index.ts";
import { fine } from "./rounded.ts";

export function ride(before: readonly Point[], now: readonly Point[], at: number): number {
  if (before === now || sameStretches(before, now)) return at;
  const stretch = stretchOf(before, at);
  const place = placeOn(before, stretch, at);
  if (before.length !== now.length) {
    const moved = movedAsItIs(before, stretch, now);
    return moved === null
      ? fine(nearestOnLine(now, place).at)
      : fine(lineLength(now.slice(0, moved + 1)) + lineLength([before[stretch] as Point, place]));
  }
  const from = now[stretch] as Point;
  const to = now[stretch + 1] as Point;
  const along = nearestOnLine([from, to], place).at;
  return fine(lineLength(now.slice(0, stretch + 1)) + along);
}

/** The one stretch of the new line that runs as this one did: it was shifted, and got or lost a bend beside it. */
function movedAsItIs(before: readonly Point[], stretch: number, now: readonly Point[]): number | null {
  const way = (line: readonly Point[], i: number): Point => {
    const [a, b] = [line[i], line[i + 1]] as [Point, Point];
    return [b[0] - a[0], b[1] - a[1]];
  };
  const [dx, dz] = way(before, stretch);
  const alike = now.slice(1).flatMap((_, i) => {
    const [x, z] = way(now, i);
    return Math.hypot(x - dx, z - dz) < 1e-6 ? [i] : [];
  });
  return alike.length === 1 ? (alike[0] as number) : null;
}

/** Kept to a tenth of a millimetre: finer differences are the noise of rounding. */
function sameStretches(a: readonly Point[], b: readonly Point[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 1; i < a.length; i++) {
    if (
      Math.abs(lineLength([a[i - 1] as Point, a[i] as Point]) - lineLength([b[i - 1] as Point, b[i] as Point])) > 1e-4
    )
      return false;
  }
  return true;
}

function stretchOf(line: readonly Point[], at: number): number {
  let stretch = 0;
  while (stretch < line.length - 2 && lineLength(line.slice(0, stretch + 2)) < at - 1e-9) stretch += 1;
  return stretch;
}

function placeOn(line: readonly Point[], stretch: number, at: number): Point {
  const [a, b] = [line[stretch], line[stretch + 1]] as [Point, Point];
  const length = lineLength([a, b]);
  const share = length === 0 ? 0 : Math.min(Math.max((at - lineLength(line.slice(0, stretch + 1))) / length, 0), 1);
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}
