/** Which pieces of a picture are no longer right for another drawing. */
import { otherParts, type PartId } from "../../hydraulics/index.ts";
import type { SceneView } from "./build.ts";
import type { Drawing } from "./drawing.ts";
import { isSunk } from "./ground.ts";
import type { Slot } from "./outline.ts";
import { sameNode } from "./sameNode.ts";

/** Whether every part that is the same is drawn the same. */
export function sameView(a: Drawing, b: Drawing): boolean {
  // In the running state no part looks at the power cut: its answers come in mid drag and move nothing.
  const samePlay =
    a.moment === null && b.moment === null
      ? true
      : a.input.powerCut === b.input.powerCut && a.input.played === b.input.played && a.moment === b.moment;
  return samePlay && sameLook(a.input.view, b.input.view) && sameNode(a.site, b.site);
}

function sameLook(a: SceneView, b: SceneView): boolean {
  if (a === b) return true;
  const { numbers: numbersA, ...restA } = a;
  const { numbers: numbersB, ...restB } = b;
  return numbersA === numbersB && sameNode(restA, restB);
}

/** @param changed parts that have to be drawn anew; null where all have */
export function outOfDate(before: Drawing, now: Drawing, changed: ReadonlySet<PartId> | null): (slot: Slot) => boolean {
  let ground: boolean | undefined;
  return ({ draws, parts }) => {
    if (draws === "strip") return !sameStrip(before, now);
    if (changed === null) return true;
    switch (draws) {
      case "paper":
      case "ruler":
      case "frame":
      // Its corner is held.
      case "scale":
        return false;
      case "earth":
      case "ground":
        ground ??= otherGround(before, now, changed);
        return ground;
      case "plinth":
      case "part":
      case "pipes":
      case "labels":
        return parts.some((id) => changed.has(id));
      default:
        // Few nodes that look at the whole drawing: built every time and compared.
        return true;
    }
  };
}

/** While the bodies that the earth is cut for stay, so does the ground. */
const otherGround = (before: Drawing, now: Drawing, changed: ReadonlySet<PartId>): boolean =>
  [...changed].some((id) => {
    const [was, is] = [before.section.parts.get(id), now.section.parts.get(id)];
    return was !== is && (isSunk(before, was) || isSunk(now, is));
  });

/** The strip shows a run in time and names: where the parts stand is nothing to it. */
function sameStrip(a: Drawing, b: Drawing): boolean {
  if (
    a.input.powerCut !== b.input.powerCut ||
    a.input.played !== b.input.played ||
    a.moment !== b.moment ||
    (a.running === null) !== (b.running === null) ||
    a.system !== b.system ||
    a.input.view.isoMargins !== b.input.view.isoMargins ||
    a.section.title !== b.section.title ||
    !sameNode(a.layout, b.layout)
  )
    return false;
  for (const id of otherParts(a.section, b.section)) {
    const [was, is] = [a.section.parts.get(id), b.section.parts.get(id)];
    if (!was || !is || was.label !== is.label) return false;
  }
  return true;
}
