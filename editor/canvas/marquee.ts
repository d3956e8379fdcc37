/** What a marquee chooses: parts that lie in it with all of their ink. */
import type { PartId } from "../../hydraulics/index.ts";
import type { SceneNode } from "../scene/node.ts";
import type { Projection, Px } from "./projection.ts";

const beside: ReadonlySet<SceneNode["layer"]> = new Set(["labels", "marks", "frame"]);

/** @param a,b opposite corners, px */
export function partsWithin(nodes: readonly SceneNode[], projection: Projection, a: Px, b: Px): readonly PartId[] {
  const [left, right] = [Math.min(a[0], b[0]), Math.max(a[0], b[0])];
  const [top, bottom] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
  const out = new Set<PartId>();
  const all = new Set<PartId>();
  for (const node of nodes) {
    if (node.part === null || beside.has(node.layer) || node.space === "paper") continue;
    all.add(node.part);
    const places = node.shape === "line" ? node.points : [node.at];
    for (const [i, place] of places.entries()) {
      const [x, y] = projection.px(node.space, place, node.shape === "line" ? node.offsets?.[i] : node.offset);
      if (x < left || x > right || y < top || y > bottom) out.add(node.part);
    }
  }
  return [...all].filter((part) => !out.has(part));
}
