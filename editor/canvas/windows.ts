/** Windows over a still picture: few rectangles in which all that moves is painted, as small as they can be. A canvas
 * costs the browser by its pixels each time that it changes, so two small ones cost less than one as large as the sheet. */
import { around, type Box } from "./inkBox.ts";

/** px² that a window may paint for nothing before two are better than one: what a canvas costs whatever its size */
const worthOne = 40_000;
const mostWindows = 6;
/** px round what moves, so that the window need not be another one in the next frame */
const margin = 48;

/** Windows that hold all boxes, within the whole: those of before where they still fit, in their places of the list.
 * All in pixels; edges are whole ones. Windows may lie over each other.
 * @param grain edges are multiples of it, but where the whole ends */
export function windowsFor(
  boxes: readonly Box[],
  before: readonly (Box | null)[],
  whole: Box,
  grain: number,
): readonly (Box | null)[] {
  const inside = boxes.flatMap((box) => within(box, whole) ?? []);
  const clusters = clustersOf(inside, { worth: worthOne, most: mostWindows });
  const kept: (Box | null)[] = before.map(() => null);
  const fresh: Box[] = [];
  for (const cluster of clusters) {
    const place = before.findIndex(
      (window, i) =>
        window !== null &&
        !kept[i] &&
        holds(window, cluster) &&
        area(window) < 3 * area(grown(cluster, whole, grain)) + worthOne,
    );
    if (place < 0) fresh.push(grown(cluster, whole, grain));
    else kept[place] = before[place] ?? null;
  }
  for (const window of fresh) {
    const free = kept.indexOf(null);
    if (free < 0) kept.push(window);
    else kept[free] = window;
  }
  return kept;
}

interface Clustering {
  /** px² that a cluster may hold for nothing before two are better than one */
  readonly worth: number;
  readonly most: number;
  /** none may lie over another */
  readonly apart?: boolean;
}

/** Few rectangles that hold all boxes. */
export function clustersOf(boxes: readonly Box[], { worth, most, apart = false }: Clustering): readonly Box[] {
  let clusters: Box[] = [];
  for (const box of boxes) {
    let joined = box;
    for (let again = true; again; ) {
      again = false;
      const others: Box[] = [];
      for (const cluster of clusters) {
        if (wasted(cluster, joined) < worth || (apart && meet(cluster, joined))) {
          joined = around([cluster, joined]);
          again = true;
        } else others.push(cluster);
      }
      clusters = others;
    }
    clusters.push(joined);
  }
  return clusters.length > most ? clustersOf(clusters, { worth: 2 * worth, most, apart }) : clusters;
}

const area = ({ left, top, right, bottom }: Box): number => (right - left) * (bottom - top);
/** Of each pair of boxes: nothing is made. */
const wasted = (a: Box, b: Box): number =>
  (Math.max(a.right, b.right) - Math.min(a.left, b.left)) * (Math.max(a.bottom, b.bottom) - Math.min(a.top, b.top)) -
  area(a) -
  area(b);
export const holds = (a: Box, b: Box): boolean =>
  a.left <= b.left && a.top <= b.top && a.right >= b.right && a.bottom >= b.bottom;

/** Null where nothing of the box lies in the whole. */
export function within({ left, top, right, bottom }: Box, whole: Box): Box | null {
  const inside = {
    left: Math.max(Math.floor(left - 1), whole.left),
    top: Math.max(Math.floor(top - 1), whole.top),
    right: Math.min(Math.ceil(right + 1), whole.right),
    bottom: Math.min(Math.ceil(bottom + 1), whole.bottom),
  };
  return inside.right > inside.left && inside.bottom > inside.top ? inside : null;
}

const grown = ({ left, top, right, bottom }: Box, whole: Box, grain: number): Box => ({
  left: Math.max(Math.floor((left - margin) / grain) * grain, whole.left),
  top: Math.max(Math.floor((top - margin) / grain) * grain, whole.top),
  right: Math.min(Math.ceil((right + margin) / grain) * grain, whole.right),
  bottom: Math.min(Math.ceil((bottom + margin) / grain) * grain, whole.bottom),
});

export const meet = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
