/** Where two pictures of the same thing may differ in ink, as small as that can be told cheaply: of a long line that has
 * one corner moved, only about that corner. Rather too large than too small. */
import type { LineNode, PathNode, Place, SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import { sameNode } from "../scene/sameNode.ts";
import { type Box, boxOfLine, boxOfNode, boxOfPath, boxOfPiece, readExtent } from "./inkBox.ts";
import type { Brush } from "./paint.ts";

/** Pixels of the window; undefined stands for what is not there. */
export function changedInPiece(was: Piece | undefined, is: Piece | undefined, brush: Brush): readonly Box[] {
  if (was === is) return [];
  if (!was || !is) {
    const box = boxOfPiece((was ?? is) as Piece, brush);
    return box ? [box] : [];
  }
  const boxes: Box[] = [];
  for (let i = 0; i < Math.max(was.nodes.length, is.nodes.length); i++)
    boxes.push(...changedInNode(was.nodes[i], is.nodes[i], brush));
  return boxes;
}

export function changedInNode(was: SceneNode | undefined, is: SceneNode | undefined, brush: Brush): readonly Box[] {
  if (was === is) return [];
  if (was?.shape === "line" && is?.shape === "line" && sameBut("points", was, is)) {
    const parts = otherPoints(was, is);
    if (parts) return parts.map((points) => boxOfLine({ ...is, points }, brush));
  }
  if (was?.shape === "path" && is?.shape === "path" && sameBut("data", was, is)) return otherData(was, is, brush);
  return [was, is].flatMap((node) => (node ? [boxOfNode(node, brush)] : []));
}

function sameBut<T extends SceneNode>(free: keyof T, a: T, b: T): boolean {
  const names = Object.keys(a) as (keyof T)[];
  return names.length === Object.keys(b).length && names.every((name) => name === free || sameNode(a[name], b[name]));
}

/** What lies between the points that both begin with and those that both end with, and one point of each: ink and what is
 * filled differ within these alone. Null where that can not be told: dashes move on along all of the line. */
function otherPoints(was: LineNode, is: LineNode): readonly (readonly Place[])[] | null {
  if (was.dash || was.offsets) return null;
  const shorter = Math.min(was.points.length, is.points.length);
  let first = 0;
  while (first < shorter && sameNode(was.points[first], is.points[first])) first += 1;
  let last = 0;
  while (last < shorter - first && sameNode(was.points.at(-1 - last), is.points.at(-1 - last))) last += 1;
  if (first === shorter && was.points.length === is.points.length) return [];
  // What is closed or filled goes on from its last point to its first.
  const around = (is.closed || is.fill !== undefined) && (first === 0 || last === 0);
  return [was.points, is.points].map((points) => [
    ...points.slice(Math.max(first - 1, 0), points.length - Math.max(last - 1, 0)),
    ...(around ? [points[0] as Place, points.at(-1) as Place] : []),
  ]);
}

/** By whole subpaths: each begins with its own M and depends on none before it. */
function otherData(was: PathNode, is: PathNode, brush: Brush): readonly Box[] {
  const [a, b] = [was.data, is.data];
  if (a === b) return [];
  const shorter = Math.min(a.length, b.length);
  let first = 0;
  while (first < shorter && a[first] === b[first]) first += 1;
  let last = 0;
  while (last < shorter - first && a[a.length - 1 - last] === b[b.length - 1 - last]) last += 1;
  // The M before the difference, not at it: there the number before may be another one.
  const start = Math.max(a.lastIndexOf("M", first - 1), 0);
  return [was, is].map((node) => {
    const end = node.data.indexOf("M", node.data.length - last);
    return boxOfPath(node, readExtent(node.data.slice(start, end < 0 ? undefined : end)), brush);
  });
}
