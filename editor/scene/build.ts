/** Document, solution and findings as scene nodes: the drawing stage. Pure, and the same for both back ends. */
import type { Finding, PartId, PowerCut, Running, Section } from "../../hydraulics/index.ts";
import type { SheetTransform } from "../sheet/transform.ts";
import type { UnitSystem } from "../sheet/units.ts";
import { drawDimensions } from "./dimensions.ts";
import { drawingOf } from "./drawing.ts";
import { drawFrame, drawPaper } from "./frame.ts";
import { drawGround } from "./ground.ts";
import { LabelPlacer } from "./labels.ts";
import { rulerWidth } from "./layout.ts";
import type { SceneNode } from "./node.ts";
import { drawingOfKind } from "./parts.ts";
import { pipeContent, pipeWalls } from "./pipe.ts";
import { drawStrip } from "./strip.ts";
import { drawTitle } from "./title.ts";

export interface SceneView {
  readonly system: UnitSystem;
  /** s after the power failed, whose levels and flows are drawn; null: the running state */
  readonly moment: number | null;
  readonly transform: SheetTransform;
  /** mm; on a screen the window is the sheet */
  readonly paper: { readonly width: number; readonly height: number };
  /** mm kept free under the upper frame line (the stencils on a screen) */
  readonly headroom?: number;
  /** such as `1:20 on A4`, written in the title block */
  readonly scaleText?: string;
  readonly date?: string;
  /** s, moves the arrows along the pipes */
  readonly clock?: number;
  /** numbers of the parts list, where the sheet has one */
  readonly numbers?: ReadonlyMap<PartId, number>;
  /** mm kept free over strip and title block for tables */
  readonly tables?: number;
  /** margins of a hand-out by ISO 5457; the value is the millimetre */
  readonly isoMargins?: number;
}

export interface SceneInput {
  readonly section: Section;
  /** null while nothing has been solved yet */
  readonly running: Running | null;
  /** null where there is none (nothing to simulate, or not yet) */
  readonly powerCut: PowerCut | null;
  readonly findings: readonly Finding[];
  readonly view: SceneView;
}

/** Keys are stable across rebuilds: `<part id> <what>`. */
export const keyOf = (part: PartId | "sheet", what: string): string => `${part} ${what}`;

/** Back to front: paper, earth, bodies, pipes (all walls before any water, so that joints stand open), what sits on
 * pipes, labels where they find room, and over all of it frame, strip and title block. */
export function buildScene(input: SceneInput): readonly SceneNode[] {
  const drawing = drawingOf(input);
  const placer = new LabelPlacer(drawing.layout.field);
  const { parts } = drawing;
  const pipes = parts.filter((part) => part.kind === "pipe");
  const bodies = parts.filter((part) => part.kind === "pond" || part.kind === "vessel");
  const others = parts.filter((part) => part.kind !== "pipe" && part.kind !== "pond" && part.kind !== "vessel");
  for (const part of parts) drawingOfKind(part).block(drawing, part, placer.obstacles);
  placer.obstacles.addRect({ ...drawing.layout.field, width: rulerWidth });
  const dimensions = drawDimensions(drawing, placer);
  // Bodies speak first, then pipes, then what sits on them; notes last.
  const requests = [...bodies, ...pipes, ...others].map((part) => drawingOfKind(part).labels(drawing, part));
  const deepest = Math.max(0, ...requests.map((list) => list.length));
  for (let rank = 0; rank < deepest; rank++) {
    for (const list of requests) {
      const request = list[rank];
      if (request) placer.place(request);
    }
  }
  return [
    ...drawPaper(drawing),
    ...drawGround(drawing),
    ...bodies.flatMap((part) => drawingOfKind(part).draw(drawing, part)),
    ...pipes.flatMap((pipe) => pipeWalls(drawing, pipe)),
    ...pipes.flatMap((pipe) => pipeContent(drawing, pipe)),
    ...others.flatMap((part) => drawingOfKind(part).draw(drawing, part)),
    ...dimensions,
    ...placer.placed.flatMap((label) => label.nodes),
    ...drawFrame(drawing),
    ...drawStrip(drawing),
    ...drawTitle(drawing),
  ];
}
