/** Which pieces of a picture that is changing can stay where they are painted.
 *
 * While something is dragged or the power cut plays, the resting layer is not painted again: pieces that are other
 * objects than those painted there move to the live layer on top and stay there until the hand rests. The set only
 * grows, so after a picture or two the resting layer is left alone. A piece is a part's whole drawing: what is filled
 * would cover its own marks that stayed below. What lies over one that moves goes with it (`over.ts`). */
import type { Piece } from "../scene/picture.ts";
import { piecesOver } from "./over.ts";
import type { Brush } from "./paint.ts";

export interface RestAndLive {
  readonly rest: readonly Piece[];
  readonly live: readonly Piece[];
  /** keys of those that were in the base and are no longer there */
  readonly gone: readonly string[];
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
  gone: [],
  left: new Set(),
  base: new Map(pieces.map((piece) => [piece.key, piece])),
  moving,
  pieces,
});

export function next(before: RestAndLive, pieces: readonly Piece[], moving: boolean, brush: Brush): RestAndLive {
  if (pieces === before.pieces && moving === before.moving) return before;
  if (!moving) return allAtRest(pieces);
  const after = leave(before, pieces, brush);
  // The first picture of a drag may say less than the one at rest, all over the sheet: figures that can not be
  // solved as fast as the hand moves are not shown. Then this picture is what rests.
  return before.moving || after.left.size * 2 < pieces.length ? after : allAtRest(pieces, true);
}

function leave(before: RestAndLive, pieces: readonly Piece[], brush: Brush): RestAndLive {
  const { base } = before;
  const left = new Set(before.left);
  const other = pieces.filter((piece, i) => piece !== before.pieces[i]);
  for (const piece of other) {
    const was = base.get(piece.key);
    if (was && was !== piece) left.add(piece.key);
  }
  const isAligned =
    pieces.length === before.pieces.length && pieces.every((piece, i) => piece.key === before.pieces[i]?.key);
  const gone = isAligned ? before.gone : missingFrom(pieces, base);
  for (const key of gone) left.add(key);
  const resting = (): readonly Piece[] => [...base.values()].filter(({ key }) => !left.has(key));
  let rest = left.size === before.left.size ? before.rest : resting();
  const over = piecesOver(
    other.filter(({ key }) => left.has(key) || !base.has(key)),
    rest,
    orderOf(base),
    brush,
  );
  if (over.size > 0) {
    for (const { key } of over) left.add(key);
    rest = resting();
  }
  const stays = isAligned && left.size === before.left.size;
  return {
    base,
    left,
    gone,
    moving: true,
    pieces,
    rest,
    live: stays ? replaced(before.live, other) : pieces.filter(({ key }) => left.has(key) || !base.has(key)),
  };
}

function missingFrom(pieces: readonly Piece[], base: RestAndLive["base"]): readonly string[] {
  const now = new Set(pieces.map(({ key }) => key));
  return [...base.keys()].filter((key) => !now.has(key));
}

function replaced(pieces: readonly Piece[], by: readonly Piece[]): readonly Piece[] {
  const fresh = new Map(by.map((piece) => [piece.key, piece]));
  return pieces.map((piece) => fresh.get(piece.key) ?? piece);
}

const orders = new WeakMap<RestAndLive["base"], ReadonlyMap<string, number>>();
function orderOf(base: RestAndLive["base"]): ReadonlyMap<string, number> {
  let order = orders.get(base);
  if (!order) {
    order = new Map([...base.keys()].map((key, i) => [key, i]));
    orders.set(base, order);
  }
  return order;
}
