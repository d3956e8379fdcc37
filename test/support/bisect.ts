/** Where a function that rises through 0 between `low` and `high` is 0. For tests that ask a law backwards. */
export function bisect(low: number, high: number, rising: (x: number) => number): number {
  if (rising(low) > 0 || rising(high) < 0) throw new Error(`no root between ${low} and ${high}`);
  let a = low;
  let b = high;
  for (let step = 0; step < 200 && b - a > 1e-15 * Math.abs(b); step++) {
    const middle = (a + b) / 2;
    if (rising(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
