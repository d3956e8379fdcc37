/** What a node covers, as boxes that follow its shape: the box round a pipe's loop holds much that is free. */
import type { LineNode, SceneNode } from "../scene/node.ts";
import { around, type Box, boxOfLine, boxOfNode } from "./inkBox.ts";
import type { Brush } from "./paint.ts";
import type { Px } from "./projection.ts";

/** px across of the slices of a filled shape */
const slice = 20;

export function inkShapes(node: SceneNode, brush: Brush): readonly Box[] {
  if (node.shape !== "line" || node.points.length < 2) return [boxOfNode(node, brush)];
  return node.closed ? slicesOf(pointsOf(node, brush)) : stretchesOf(node, brush);
}

const pointsOf = ({ space, points, offsets }: LineNode, { projection }: Brush): readonly Px[] =>
  points.map((point, k) => projection.px(space, point, offsets?.[k]));

/** A box a stretch between two points. */
const stretchesOf = (node: LineNode, brush: Brush): readonly Box[] =>
  node.points.slice(1).map((to, k) => {
    const points = [node.points[k] ?? to, to];
    const { offsets, ...rest } = node;
    return boxOfLine(offsets ? { ...rest, points, offsets: offsets.slice(k, k + 2) } : { ...rest, points }, brush);
  });

/** A box a slice, from the highest to the lowest edge in it. */
function slicesOf(points: readonly Px[]): readonly Box[] {
  const whole = around(points.map(([x, y]) => ({ left: x, right: x, top: y, bottom: y })));
  const slices: Box[] = [];
  for (let left = whole.left; left < whole.right; left += slice) {
    const right = Math.min(left + slice, whole.right);
    const heights = points.flatMap((from, k) => heightsIn(from, points[(k + 1) % points.length] ?? from, left, right));
    if (heights.length > 0) slices.push({ left, right, top: Math.min(...heights), bottom: Math.max(...heights) });
  }
  return slices;
}

/** Where an edge enters and leaves the slice. */
function heightsIn([ax, ay]: Px, [bx, by]: Px, left: number, right: number): readonly number[] {
  if (Math.max(ax, bx) < left || Math.min(ax, bx) > right) return [];
  if (ax === bx) return [ay, by];
  const at = (x: number): number =>
    ay + ((by - ay) * (Math.min(Math.max(x, Math.min(ax, bx)), Math.max(ax, bx)) - ax)) / (bx - ax);
  return [at(left), at(right)];
}
