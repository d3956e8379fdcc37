/** Labels that keep to their moving parts are not searched a place for, so one may come to lie over another. Of two that
 * do, the one that was placed first, which is the more important, is shown alone until they part. */
import type { Rect } from "../sheet/transform.ts";
import { grown } from "./labelBox.ts";
import type { PlacedLabel } from "./labels.ts";
import { overlap } from "./obstacles.ts";

/** mm of a square of the grid by which neighbours are found */
const square = 20;
/** mm that two boxes may share: at rest they may touch */
const shared = 0.1;

/** The keys of labels that another one goes before.
 * @param order keys, the most important first */
export function coveredLabels(labels: Iterable<PlacedLabel>, order: Iterable<string>): ReadonlySet<string> {
  const rank = new Map<string, number>();
  for (const key of order) rank.set(key, rank.size);
  const rankOf = ({ key }: PlacedLabel): number => rank.get(key) ?? rank.size;
  const squares = new Map<string, PlacedLabel[]>();
  const covered = new Set<string>();
  for (const label of labels) {
    for (const at of squaresOf(label.box)) {
      const there = squares.get(at);
      if (!there) {
        squares.set(at, [label]);
        continue;
      }
      for (const other of there)
        if (overlap(grown(other.box, -shared), label.box))
          covered.add((rankOf(other) <= rankOf(label) ? label : other).key);
      there.push(label);
    }
  }
  return covered;
}

function* squaresOf({ x, y, width, height }: Rect): Iterable<string> {
  for (let column = Math.floor(x / square); column <= Math.floor((x + width) / square); column++)
    for (let row = Math.floor(y / square); row <= Math.floor((y + height) / square); row++) yield `${column} ${row}`;
}
