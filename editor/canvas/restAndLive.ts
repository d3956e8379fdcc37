/** Which nodes of a picture that is changing can stay where they are painted.
 *
 * While something is dragged or the power cut plays, the resting layer is not painted again: what differs
 * from it moves to the live layer on top and stays there until the hand rests. The set only grows, so after
 * a frame or two the resting layer is left alone. */
import type { PartId } from "../../hydraulics/index.ts";
import type { SceneNode } from "../scene/node.ts";

export interface RestAndLive {
  readonly rest: readonly SceneNode[];
  readonly live: readonly SceneNode[];
  /** keys that have left the resting layer so far */
  readonly left: ReadonlySet<string>;
  readonly base: readonly SceneNode[];
}

export const allAtRest = (nodes: readonly SceneNode[]): RestAndLive => ({
  rest: nodes,
  live: [],
  left: new Set(),
  base: nodes,
});

export function next(before: RestAndLive, nodes: readonly SceneNode[], moving: boolean): RestAndLive {
  if (!moving) return before.base === nodes && before.left.size === 0 ? before : allAtRest(nodes);
  const base = new Map(before.base.map((node) => [node.key, node]));
  const now = new Set<string>();
  let left: Set<string> | null = null;
  const leave = (key: string): void => {
    if (before.left.has(key)) return;
    left ??= new Set(before.left);
    left.add(key);
  };
  // What is filled would cover its own part's marks that stayed below: a body leaves as a whole.
  const bodies = new Set<PartId>();
  for (const node of nodes) {
    now.add(node.key);
    const was = base.get(node.key);
    if (!was || was === node || sameNode(was, node)) continue;
    leave(node.key);
    if (node.layer === "bodies" && node.part !== null) bodies.add(node.part);
  }
  for (const node of before.base)
    if (node.layer === "bodies" && node.part !== null && bodies.has(node.part)) leave(node.key);
  for (const key of base.keys()) if (!now.has(key)) leave(key);
  const gone = left ?? before.left;
  return {
    base: before.base,
    left: gone,
    rest: left === null ? before.rest : before.base.filter((node) => !gone.has(node.key)),
    live: nodes.filter((node) => gone.has(node.key) || !base.has(node.key)),
  };
}

/** Nodes are small trees of numbers and words. */
export function sameNode(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!sameNode(a[i], b[i])) return false;
    return true;
  }
  const keysA = Object.keys(a);
  if (keysA.length !== Object.keys(b).length) return false;
  return keysA.every((key) => sameNode((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]));
}
