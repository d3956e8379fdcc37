/** Which pieces of a picture that is changing can stay where they are painted.
 *
 * While something is dragged or the power cut plays, the resting layer is not painted again: pieces that are other
 * objects than those painted there move to the live layer on top and stay there until the hand rests. The set only
 * grows, so after a picture or two the resting layer is left alone. A piece is a part's whole drawing: what is filled
 * would cover its own marks that stayed below. */
import type { Piece } from "../scene/picture.ts";

export interface RestAndLive {
  readonly rest: readonly Piece[];
  readonly live: readonly Piece[];
  /** keys that have left the resting layer so far */
  readonly left: ReadonlySet<string>;
  /** the pieces that the resting layer is made of, by key */
  readonly base: ReadonlyMap<string, Piece>;
  /** the hand holds something: the base is a picture of the drag */
  readonly moving: boolean;
  readonly pieces: readonly Piece[];
}

export const allAtRest = (pieces: readonly Piece[], moving = false): RestAndLive => ({
  rest: pieces,
  live: [],
  left: new Set(),
  base: new Map(pieces.map((piece) => [piece.key, piece])),
  moving,
  pieces,
});

export function next(before: RestAndLive, pieces: readonly Piece[], moving: boolean): RestAndLive {
  if (pieces === before.pieces && moving === before.moving) return before;
  if (!moving) return allAtRest(pieces);
  const after = leave(before, pieces);
  // The first picture of a drag may say less than the one at rest, all over the sheet: figures that can not be
  // solved as fast as the hand moves are not shown. Then this picture is what rests.
  return before.moving || after.left.size * 2 < pieces.length ? after : allAtRest(pieces, true);
}

function leave(before: RestAndLive, pieces: readonly Piece[]): RestAndLive {
  const { base } = before;
  let left: Set<string> | null = null;
  const go = (key: string): void => {
    if (before.left.has(key)) return;
    left ??= new Set(before.left);
    left.add(key);
  };
  let met = 0;
  for (const piece of pieces) {
    const was = base.get(piece.key);
    if (was) met += 1;
    if (was && was !== piece) go(piece.key);
  }
  if (met < base.size) {
    const now = new Set(pieces.map(({ key }) => key));
    for (const key of base.keys()) if (!now.has(key)) go(key);
  }
  const gone: ReadonlySet<string> = left ?? before.left;
  return {
    base,
    left: gone,
    moving: true,
    pieces,
    rest: left === null ? before.rest : [...base.values()].filter(({ key }) => !gone.has(key)),
    live: pieces.filter(({ key }) => gone.has(key) || !base.has(key)),
  };
}
