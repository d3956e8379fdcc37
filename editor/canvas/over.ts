/** What lies over what. A drag's windows are put together of low ink at rest, low ink that moves, high ink at rest, high
 * ink that moves, and the sheet's own over all (`movingPainter.ts`), so a piece at rest that lies over a moving one has to
 * move with it. */
import type { SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import { around, type Box, boxOfNode } from "./inkBox.ts";
import { type Brush, layerOrder } from "./paint.ts";
import { meet } from "./windows.ts";

/** Earth and bodies: what moves of them stays under all that rests of the others. */
export const isLow = (node: SceneNode): boolean => node.layer === "back" || node.layer === "bodies";

/** From below: low ink; high ink; frame, ruler, strip and title block, which cover what runs out under them. */
export const levels = ["low", "high", "sheet"] as const;
export type Level = (typeof levels)[number];
export const levelOf = (node: SceneNode): Level => (node.layer === "frame" ? "sheet" : isLow(node) ? "low" : "high");

/** The low or the high ink of a piece. */
interface Half {
  readonly box: Box;
  /** its lowest and its highest layer */
  readonly from: number;
  readonly to: number;
}

interface Listed {
  readonly piece: Piece;
  readonly its: readonly (Half | null)[];
}

interface Known {
  readonly halves: WeakMap<Piece, readonly (Half | null)[]>;
  /** of lists that stay the same over many frames */
  readonly lists: WeakMap<readonly Piece[], readonly Listed[]>;
}
const known = new WeakMap<Brush, Known>();

/** The pieces at rest that lie over one of those that move, or over one that does, and so on.
 * @param order places in the picture; a piece without one is new, and whatever it meets is taken to be over it */
export function piecesOver(
  moving: readonly Piece[],
  rest: readonly Piece[],
  order: ReadonlyMap<string, number>,
  brush: Brush,
): ReadonlySet<Piece> {
  const found = new Set<Piece>();
  if (moving.length === 0) return found;
  const memory = memoryOf(brush);
  const halvesOf = (piece: Piece): readonly (Half | null)[] => {
    let halves = memory.halves.get(piece);
    if (!halves) {
      halves = [
        halfOf(
          piece.nodes.filter((node) => levelOf(node) === "low"),
          brush,
        ),
        halfOf(
          piece.nodes.filter((node) => levelOf(node) === "high"),
          brush,
        ),
      ];
      memory.halves.set(piece, halves);
    }
    return halves;
  };
  let list = memory.lists.get(rest);
  if (!list) {
    list = rest.filter(({ nodes }) => nodes.length > 0).map((piece) => ({ piece, its: halvesOf(piece) }));
    memory.lists.set(rest, list);
  }
  const queue = [...moving];
  for (let below = queue.pop(); below; below = queue.pop()) {
    const place = order.get(below.key) ?? -1;
    const halves = halvesOf(below);
    for (const { piece, its } of list) {
      if (found.has(piece)) continue;
      const isAfter = (order.get(piece.key) ?? Number.POSITIVE_INFINITY) > place;
      if (!isOver(its[0], halves[0], isAfter) && !isOver(its[1], halves[1], isAfter)) continue;
      found.add(piece);
      queue.push(piece);
    }
  }
  return found;
}

const isOver = (a: Half | null | undefined, b: Half | null | undefined, isAfter: boolean): boolean =>
  !!a && !!b && meet(a.box, b.box) && (a.to > b.from || (a.to === b.from && isAfter));

function halfOf(nodes: readonly SceneNode[], brush: Brush): Half | null {
  if (nodes.length === 0) return null;
  const layers = nodes.map(({ layer }) => layerOrder.indexOf(layer));
  return {
    box: around(nodes.map((node) => boxOfNode(node, brush))),
    from: Math.min(...layers),
    to: Math.max(...layers),
  };
}

function memoryOf(brush: Brush): Known {
  let memory = known.get(brush);
  if (!memory) {
    memory = { halves: new WeakMap(), lists: new WeakMap() };
    known.set(brush, memory);
  }
  return memory;
}
