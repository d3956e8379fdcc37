/** The interface that every part kind's drawing shares. A new kind is a file and a line in `parts.ts`. */
import type { Part } from "../../hydraulics/index.ts";
import type { Drawing } from "./drawing.ts";
import type { LabelRequest } from "./labelRequest.ts";
import type { SceneNode } from "./node.ts";
import type { Obstacles } from "./obstacles.ts";

export interface PartDrawing<P extends Part> {
  readonly draw: (drawing: Drawing, part: P) => readonly SceneNode[];
  /** what labels keep off */
  readonly block: (drawing: Drawing, part: P, obstacles: Obstacles) => void;
  /** in order of importance */
  readonly labels: (drawing: Drawing, part: P) => readonly LabelRequest[];
}
