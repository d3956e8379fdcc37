/** Which part a pointer is over, from the very nodes that are painted: the uppermost that is near enough.
 * The reach is in pixels and kind to fingers; thin lines are as easy to meet as thick ones. */
import type { PartId } from "../../hydraulics/index.ts";
import type { SceneNode } from "../scene/node.ts";
import type { Projection, Px } from "./projection.ts";

const order: Record<SceneNode["layer"], number> = {
  back: 0,
  bodies: 1,
  pipes: 2,
  devices: 3,
  marks: 4,
  labels: 5,
  frame: 6,
};

export function partAt(nodes: readonly SceneNode[], projection: Projection, at: Px, reach: number): PartId | null {
  let best: { part: PartId; layer: number; off: number } | null = null;
  for (const node of nodes) {
    if (node.part === null || node.layer === "frame") continue;
    const off = distanceTo(node, projection, at);
    if (off > reach) continue;
    // A label or a level mark is met only on itself, so that it does not steal what it stands beside.
    if (order[node.layer] >= order.marks && off > 0) continue;
    const layer = order[node.layer];
    if (!best || layer > best.layer || (layer === best.layer && off <= best.off))
      best = { part: node.part, layer, off };
  }
  return best?.part ?? null;
}

/** px from a node's ink; 0 inside something filled. */
export function distanceTo(node: SceneNode, projection: Projection, [x, y]: Px): number {
  switch (node.shape) {
    case "line": {
      const points = node.points.map((point, i) => projection.px(node.space, point, node.offsets?.[i]));
      const half = node.siteWidth ? (node.siteWidth * projection.pxPerMetre) / 2 : 0;
      if (node.fill && node.fill !== "none" && node.closed && inside(points, [x, y])) return 0;
      return Math.max(0, toLine(points, [x, y], node.closed === true) - half);
    }
    case "circle": {
      const [cx, cy] = projection.px(node.space, node.at, node.offset);
      const radius = node.radius * (node.siteRadius ? projection.pxPerMetre : projection.pxPerMm);
      return Math.max(0, Math.hypot(cx - x, cy - y) - radius);
    }
    case "path": {
      const [cx, cy] = projection.px(node.space, node.at, node.offset);
      return Math.max(0, Math.hypot(cx - x, cy - y) - 2.5 * (node.scale ?? 1) * projection.pxPerMm);
    }
    case "text": {
      const [tx, ty] = projection.px(node.space, node.at, node.offset);
      if (node.turn) return Number.POSITIVE_INFINITY;
      const size = node.size * projection.pxPerMm;
      const width = projection.textWidth(node.text, node.size, node.weight) * projection.pxPerMm;
      const left = node.anchor === "start" ? tx : node.anchor === "middle" ? tx - width / 2 : tx - width;
      const dx = Math.max(left - x, 0, x - left - width);
      const dy = Math.max(ty - size - y, 0, y - ty - size * 0.25);
      return Math.hypot(dx, dy);
    }
  }
}

function toLine(points: readonly Px[], [x, y]: Px, closed: boolean): number {
  let best = Number.POSITIVE_INFINITY;
  const last = closed ? points.length : points.length - 1;
  for (let i = 0; i < last; i++) {
    const [ax, ay] = points[i] as Px;
    const [bx, by] = points[(i + 1) % points.length] as Px;
    const length = (bx - ax) ** 2 + (by - ay) ** 2;
    const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length));
    best = Math.min(best, Math.hypot(ax + t * (bx - ax) - x, ay + t * (by - ay) - y));
  }
  return best;
}

function inside(points: readonly Px[], [x, y]: Px): boolean {
  let within = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const [ax, ay] = points[i] as Px;
    const [bx, by] = points[j] as Px;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
  }
  return within;
}
