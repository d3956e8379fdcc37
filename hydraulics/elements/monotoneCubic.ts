/** Piecewise cubic through points, nowhere rising between two points that fall (and the other way round).
 *     inside:  d = 0 where the chords δ₋, δ₊ differ in sign, else (w₁+w₂)/d = w₁/δ₋ + w₂/δ₊,
 *              w₁ = 2h₊ + h₋, w₂ = h₊ + 2h₋        h the widths, δ the chords' slopes
 *     ends:    d = ((2h₁+h₂)δ₁ − h₁δ₂)/(h₁+h₂), set to 0 where its sign is not δ₁'s, to 3δ₁ where δ₁, δ₂ differ in
 *              sign and it is steeper than that; with two points the chord
 * Holds for two or more points with rising abscissas.
 * Source: F. N. Fritsch, J. Butland, A method for constructing local monotone piecewise cubic interpolants, SIAM J.
 *     Sci. Stat. Comput. 5 (1984) 300; end derivatives as in C. Moler, Numerical Computing with MATLAB, section 3.6.
 * Ours: outside the points the first and last chord go on. At the first point the slope given is the outside chord's
 *     (an end derivative may be 0, and a pump at rest must not be flat).
 * Needs rising `x`. */
export interface MonotoneCubic {
  value(x: number): number;
  slope(x: number): number;
  /** from 0 */
  integral(x: number): number;
}

export function monotoneCubic(x: readonly number[], y: readonly number[]): MonotoneCubic {
  const last = x.length - 1;
  const d = endAndInnerSlopes(x, y);
  const firstChord = (y[1]! - y[0]!) / (x[1]! - x[0]!);
  const lastChord = (y[last]! - y[last - 1]!) / (x[last]! - x[last - 1]!);
  // Each piece as y + s·(d + s·(c + s·b)), s from its left end, and its integral from the first point to there.
  const square = new Float64Array(last);
  const cube = new Float64Array(last);
  const before = new Float64Array(last + 1);
  for (let i = 0; i < last; i++) {
    const h = x[i + 1]! - x[i]!;
    const chord = (y[i + 1]! - y[i]!) / h;
    square[i] = (3 * chord - 2 * d[i]! - d[i + 1]!) / h;
    cube[i] = (d[i]! + d[i + 1]! - 2 * chord) / (h * h);
    before[i + 1] = before[i]! + h * (y[i]! + h * (d[i]! / 2 + h * (square[i]! / 3 + (h * cube[i]!) / 4)));
  }
  const pieceOf = (at: number): number => {
    let low = 0;
    let high = last - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (x[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const fromFirst = (at: number): number => {
    if (at <= x[0]!) return (at - x[0]!) * (y[0]! + (firstChord * (at - x[0]!)) / 2);
    if (at >= x[last]!) return before[last]! + (at - x[last]!) * (y[last]! + (lastChord * (at - x[last]!)) / 2);
    const i = pieceOf(at);
    const s = at - x[i]!;
    return before[i]! + s * (y[i]! + s * (d[i]! / 2 + s * (square[i]! / 3 + (s * cube[i]!) / 4)));
  };
  const atZero = fromFirst(0);
  return {
    value(at) {
      if (at <= x[0]!) return y[0]! + firstChord * (at - x[0]!);
      if (at >= x[last]!) return y[last]! + lastChord * (at - x[last]!);
      const i = pieceOf(at);
      const s = at - x[i]!;
      return y[i]! + s * (d[i]! + s * (square[i]! + s * cube[i]!));
    },
    slope(at) {
      if (at <= x[0]!) return firstChord;
      if (at >= x[last]!) return lastChord;
      const i = pieceOf(at);
      const s = at - x[i]!;
      return d[i]! + s * (2 * square[i]! + 3 * s * cube[i]!);
    },
    integral: (at) => fromFirst(at) - atZero,
  };
}

/** The derivative at each point. */
export function endAndInnerSlopes(x: readonly number[], y: readonly number[]): Float64Array {
  const last = x.length - 1;
  const d = new Float64Array(last + 1);
  const width = (i: number) => x[i + 1]! - x[i]!;
  const chord = (i: number) => (y[i + 1]! - y[i]!) / width(i);
  if (last === 1) return d.fill(chord(0));
  for (let i = 1; i < last; i++) {
    const left = chord(i - 1);
    const right = chord(i);
    if (left * right <= 0) continue;
    const w1 = 2 * width(i) + width(i - 1);
    const w2 = width(i) + 2 * width(i - 1);
    d[i] = (w1 + w2) / (w1 / left + w2 / right);
  }
  d[0] = endSlope(width(0), width(1), chord(0), chord(1));
  d[last] = endSlope(width(last - 1), width(last - 2), chord(last - 1), chord(last - 2));
  return d;
}

function endSlope(h1: number, h2: number, near: number, far: number): number {
  const d = ((2 * h1 + h2) * near - h1 * far) / (h1 + h2);
  if (d * near <= 0) return 0;
  return near * far <= 0 && Math.abs(d) > 3 * Math.abs(near) ? 3 * near : d;
}
