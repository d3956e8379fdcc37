/** One column of a table whose figures rise from row to row, while it is typed in any order: what was typed stands, and
 * the rows not typed yet make way.
 *
 * A row in nobody's way keeps its figure, so that one figure mended in a maker's table leaves the rest as it was. Where
 * one is in the way, all rows of its gap move together and keep their shape:
 *     before the first typed row   shrunk towards 0, below which there is no figure
 *     between two typed rows       stretched from the old pair to the new one
 *     after the last typed row     shifted up
 * Each row is worked out from `base`, the table before anything was typed, and not from where it was last moved to: so
 * the order of typing does not matter, and a slip of the key that is mended leaves no trace.
 * Null where what was typed does not rise, or leaves the rows between no room.
 * Needs `base` rising, from 0 or above. */
export function makeWay(base: readonly number[], typed: readonly (number | null)[]): readonly number[] | null {
  const made = base.map((figure, row) => typed[row] ?? figure);
  const stands = typed.flatMap((figure, row) => (figure === null ? [] : [row]));
  const first = stands[0];
  if (first === undefined) return made;
  // Ends of the gaps by row: the one before the first row stands for 0, the one after the last for no end at all.
  const ends = [-1, ...stands, base.length];
  for (let k = 1; k < ends.length; k++) {
    const from = ends[k - 1] as number;
    const to = ends[k] as number;
    if (!rises(made.slice(Math.max(from, 0), to + 1))) moveGap(made, base, from, to);
  }
  const floor = made[0] as number;
  return rises(made) && (floor >= 0 || typed[0] !== null) ? made : null;
}

function moveGap(made: number[], base: readonly number[], from: number, to: number): void {
  const [oldLow, low] = from < 0 ? [0, 0] : [base[from] as number, made[from] as number];
  const isOpen = to === base.length;
  const stretch = isOpen ? 1 : ((made[to] as number) - low) / ((base[to] as number) - oldLow);
  for (let row = from + 1; row < to; row++) made[row] = tidy(low + ((base[row] as number) - oldLow) * stretch);
}

const rises = (figures: readonly number[]): boolean =>
  figures.every((figure, row) => row === 0 || figure > (figures[row - 1] as number));

/** The noise of adding is not written into a file. */
const tidy = (figure: number): number => Number(figure.toPrecision(12));
