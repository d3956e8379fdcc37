/** What stands in a slot of the outline, as nodes. */
import type { Body, Part, PartId, Pipe } from "../../hydraulics/index.ts";
import type { Drawing } from "./drawing.ts";
import { drawFrame, drawPaper } from "./frame.ts";
import { drawGradeLine } from "./gradeLine.ts";
import { drawGround, drawPlinth } from "./ground.ts";
import type { SceneNode } from "./node.ts";
import type { Slot } from "./outline.ts";
import { drawPartedMark } from "./partedMark.ts";
import { drawingOfKind } from "./parts.ts";
import { pipeContent, pipeWalls } from "./pipe.ts";
import { drawRuler } from "./ruler.ts";
import { drawStrip } from "./strip.ts";
import { drawTitleBlock } from "./titleBlock.ts";

/** What had to look for a place, or was held to one. */
export interface Found {
  readonly dimensions: () => readonly SceneNode[];
  readonly scaleBar: () => readonly SceneNode[];
  readonly labelsOf: (id: PartId) => readonly SceneNode[];
}

export type DrawSlot = (slot: Slot) => readonly SceneNode[];

/** Draws any slot of this drawing's outline. */
export function drawingSlots(drawing: Drawing, found: Found): DrawSlot {
  let ground: ReturnType<typeof drawGround> | undefined;
  const cut = () => {
    ground ??= drawGround(drawing);
    return ground;
  };
  const partOf = ({ parts: [id] }: Slot): Part => drawing.section.parts.get(id as PartId) as Part;
  return (slot) => {
    switch (slot.draws) {
      case "plinth":
        return drawPlinth(drawing, partOf(slot) as Body);
      case "part":
        return drawingOfKind(partOf(slot)).draw(drawing, partOf(slot));
      case "pipes":
        return drawPipes(drawing, slot.parts);
      case "labels":
        return found.labelsOf(slot.parts[0] as PartId);
      case "paper":
        return [drawPaper(drawing)];
      case "earth":
        return cut().earth;
      case "ground":
        return cut().line;
      case "grade line":
        return drawing.input.view.gradeLine ? drawGradeLine(drawing) : [];
      case "dimensions":
        return found.dimensions();
      case "scale":
        return found.scaleBar();
      case "ruler":
        return drawRuler(drawing);
      case "parted mark":
        return drawPartedMark(drawing);
      case "frame":
        return drawFrame(drawing);
      case "strip":
        return drawStrip(drawing);
      case "title":
        return drawTitleBlock(drawing);
    }
  };
}

/** Pipes that tee into each other as one: all walls, then all that is in them, so that joints are open. Others one
 * after the other, so that crossings stay crossings. */
function drawPipes(drawing: Drawing, ids: readonly PartId[]): readonly SceneNode[] {
  const pipes = ids.map((id) => drawing.section.parts.get(id) as Pipe);
  return [...pipes.flatMap((pipe) => pipeWalls(drawing, pipe)), ...pipes.flatMap((pipe) => pipeContent(drawing, pipe))];
}
