import { isArrow } from "../canvas/SheetCanvas.tsx";
import type { SceneInput } from "../scene/build.ts";
import { drawingOf } from "../scene/drawing.ts";
import type { SceneNode } from "../scene/node.ts";
import { pipeContent } from "../scene/pipe.ts";

/** The arrows in the pipes at a moment: the only nodes that move while nothing changes, so they are built alone. */
export function arrowsOf(input: SceneInput, clock: number): readonly SceneNode[] {
  const drawing = drawingOf({ ...input, view: { ...input.view, clock } });
  return drawing.parts.flatMap((part) => (part.kind === "pipe" ? pipeContent(drawing, part).filter(isArrow) : []));
}
