/** The pixels that a piece may touch, so that a drag paints no others. Rather too large than too small. */
import type { LineNode, PathNode, Place, SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import type { Brush } from "./paint.ts";

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Pieces and nodes stay the same objects while nothing changes them; so do their boxes. */
const known = new WeakMap<Brush, WeakMap<readonly SceneNode[] | SceneNode, Box>>();

function kept<T extends readonly SceneNode[] | SceneNode>(
  of: T,
  brush: Brush,
  find: (of: T, brush: Brush) => Box,
): Box {
  let boxes = known.get(brush);
  if (!boxes) {
    boxes = new WeakMap();
    known.set(brush, boxes);
  }
  let box = boxes.get(of);
  if (!box) {
    box = find(of, brush);
    boxes.set(of, box);
  }
  return box;
}

/** Null where there is nothing to paint. */
export const boxOfPiece = ({ nodes }: Piece, brush: Brush): Box | null =>
  nodes.length === 0 ? null : kept(nodes, brush, boxOfAll);

export const boxOfNode = (node: SceneNode, brush: Brush): Box => kept(node, brush, findBox);

const boxOfAll = (nodes: readonly SceneNode[], brush: Brush): Box =>
  around(nodes.map((node) => boxOfNode(node, brush)));

const far = Number.POSITIVE_INFINITY;
export const around = (boxes: readonly Box[]): Box => {
  const all = { left: far, top: far, right: -far, bottom: -far };
  for (let i = 0; i < boxes.length; i++) {
    const box = boxes[i] as Box;
    all.left = Math.min(all.left, box.left);
    all.top = Math.min(all.top, box.top);
    all.right = Math.max(all.right, box.right);
    all.bottom = Math.max(all.bottom, box.bottom);
  }
  return all;
};

function findBox(node: SceneNode, brush: Brush): Box {
  const { projection, pens } = brush;
  const { pxPerMm, pxPerMetre } = projection;
  switch (node.shape) {
    case "line":
      return boxOfLine(node, brush);
    case "circle": {
      const radius = node.radius * (node.siteRadius ? pxPerMetre : pxPerMm);
      return square(projection.px(node.space, node.at, node.offset), radius + pens[node.pen] * pxPerMm);
    }
    case "path":
      return boxOfPath(node, extentOf(node.data), brush);
    case "text": {
      const size = node.size * pxPerMm;
      const width = projection.textWidth(node.text, size, node.weight);
      const [x, y] = projection.px(node.space, node.at, node.offset);
      if (node.turn) return square([x, y], width + size);
      const back = node.anchor === "start" ? 0 : node.anchor === "middle" ? width / 2 : width;
      return { left: x - back - 2, top: y - size * 1.1, right: x - back + width + 2, bottom: y + size * 0.4 };
    }
  }
}

/** @param extent of the data, or of as much of it as is asked for */
export function boxOfPath(node: PathNode, { left, top, right, bottom }: Box, { projection, pens }: Brush): Box {
  const scale = projection.pxPerMm * (node.scale ?? 1);
  const pen = pens[node.pen] * projection.pxPerMm;
  const [x, y] = projection.px(node.space, node.at, node.offset);
  if (node.turn) {
    const far = Math.hypot(Math.max(-left, right), Math.max(-top, bottom));
    return square([x, y], far * scale + pen);
  }
  return {
    left: x + left * scale - pen,
    top: y + top * scale - pen,
    right: x + right * scale + pen,
    bottom: y + bottom * scale + pen,
  };
}

export function boxOfLine(node: LineNode, { projection, pens }: Brush): Box {
  const pen = pens[node.pen] * projection.pxPerMm;
  const width = node.siteWidth === undefined ? pen : Math.max(node.siteWidth * projection.pxPerMetre, pen);
  // A mitred corner reaches out four half widths at most (`miterLimit`).
  const reach = node.join === "round" ? width : 2 * width;
  const box = { left: far, top: far, right: -far, bottom: -far };
  // Every point of what moves comes by here in each frame: nothing is made of it.
  for (let i = 0; i < node.points.length; i++) {
    const at = projection.px(node.space, node.points[i] as Place, node.offsets?.[i]);
    box.left = Math.min(box.left, at[0] - reach);
    box.top = Math.min(box.top, at[1] - reach);
    box.right = Math.max(box.right, at[0] + reach);
    box.bottom = Math.max(box.bottom, at[1] + reach);
  }
  return box;
}

const square = ([x, y]: readonly [number, number], by: number): Box => ({
  left: x - by,
  top: y - by,
  right: x + by,
  bottom: y + by,
});

/** Path data is read once; the same symbols come again in every frame. */
const extents = new Map<string, Box>();
const everywhere: Box = { left: -1e5, top: -1e5, right: 1e5, bottom: 1e5 };

function extentOf(data: string): Box {
  let extent = extents.get(data);
  if (!extent) {
    if (extents.size > 4000) extents.clear();
    extent = readExtent(data);
    extents.set(data, extent);
  }
  return extent;
}

/** Of absolute commands; a path with relative ones may reach anywhere. */
export function readExtent(data: string): Box {
  if (/[a-df-z]/.test(data)) return everywhere;
  const points: Box[] = [];
  let [x, y] = [0, 0];
  const reach = (toX: number, toY: number, by = 0): void => {
    [x, y] = [toX, toY];
    points.push(square([x, y], by));
  };
  for (const [, command, given] of data.matchAll(/([A-Z])([^A-Z]*)/g)) {
    const numbers = given?.match(/-?\d*\.?\d+/g)?.map(Number) ?? [];
    const at = (i: number): number => numbers[i] ?? 0;
    if (command === "H") for (const to of numbers) reach(to, y);
    else if (command === "V") for (const to of numbers) reach(x, to);
    else if (command === "A") {
      // An arc stays within two radii of its end.
      for (let i = 0; i < numbers.length; i += 7) reach(at(i + 5), at(i + 6), 2 * Math.max(at(i), at(i + 1)));
    } else for (let i = 0; i < numbers.length; i += 2) reach(at(i), at(i + 1));
  }
  return points.length === 0 ? { left: 0, top: 0, right: 0, bottom: 0 } : around(points);
}
