/** Document, solution and findings as scene nodes: the drawing stage. Pure, and the same for both back ends. */
import type { Finding, Part, PartId, Pipe, PowerCut, Running, Section } from "../../hydraulics/index.ts";
import type { SheetTransform } from "../sheet/transform.ts";
import type { UnitSystem } from "../sheet/units.ts";
import { drawDimensions } from "./dimensions.ts";
import { type Drawing, drawingOf } from "./drawing.ts";
import { drawFrame, drawPaper } from "./frame.ts";
import { blockGround, drawGround } from "./ground.ts";
import { LabelPlacer, type LabelRequest, type PlacedLabel } from "./labels.ts";
import type { LayoutOptions } from "./layout.ts";
import type { SceneNode } from "./node.ts";
import { drawPartedMark } from "./partedMark.ts";
import { drawingOfKind } from "./parts.ts";
import { pipeContent, pipeWalls } from "./pipe.ts";
import type { PlayedRun } from "./played.ts";
import { drawRuler } from "./ruler.ts";
import { drawScaleBar } from "./scaleBar.ts";
import { drawStrip } from "./strip.ts";
import { drawTitleBlock } from "./titleBlock.ts";
import { stoneOf } from "./vessel.ts";

export interface SceneView extends LayoutOptions {
  readonly system: UnitSystem;
  /** s after the power failed, or since the run that is played began, whose levels and flows are drawn; null: the running state */
  readonly moment: number | null;
  readonly transform: SheetTransform;
  /** mm; on a screen the window is the sheet */
  readonly paper: { readonly width: number; readonly height: number };
  /** such as `1:20 on A4`, written in the title block */
  readonly scaleText?: string;
  readonly date?: string;
  /** numbers of the parts list, written in rings beside the names */
  readonly numbers?: ReadonlyMap<PartId, number>;
  /** s; moves the flow arrows on at the water's speed */
  readonly clock?: number;
}

export interface SceneInput {
  readonly section: Section;
  /** null while nothing has been solved yet */
  readonly running: Running | null;
  /** null where there is none (nothing to simulate, or not yet) */
  readonly powerCut: PowerCut | null;
  /** shown on the strip and followed by levels and flows in the power cut's place; null while it is sought */
  readonly played?: PlayedRun | null;
  readonly findings: readonly Finding[];
  readonly view: SceneView;
}

export interface Scene {
  readonly nodes: readonly SceneNode[];
  readonly labels: readonly PlacedLabel[];
}

export const buildScene = (input: SceneInput): readonly SceneNode[] => composeScene(input).nodes;

/** The nodes, and where the labels went. */
export function composeScene(input: SceneInput): Scene {
  const drawing = drawingOf(input);
  const { nodes, labels } = composeSection(drawing);
  return {
    labels,
    nodes: [
      drawPaper(drawing),
      ...nodes,
      ...drawPartedMark(drawing),
      ...drawFrame(drawing),
      ...drawStrip(drawing),
      ...drawTitleBlock(drawing),
    ],
  };
}

/** The section alone, with its ruler and scale bar: no paper, frame, strip or title block. */
export function composeSection(drawing: Drawing): Scene {
  const placer = new LabelPlacer(drawing.layout.field);
  for (const part of drawing.parts) drawingOfKind(part).block(drawing, part, placer.obstacles);
  for (const rect of stoneOf(drawing)) placer.stone.addRect(rect);
  // Dimension lines may cross the ground line, words may not.
  const dimensions = drawDimensions(drawing, placer.obstacles);
  blockGround(drawing, placer.obstacles);
  const scaleBar = drawScaleBar(drawing, placer.obstacles);
  for (const request of inOrder(drawing)) placer.place(request);
  return {
    labels: placer.placed,
    nodes: [
      ...drawGround(drawing),
      ...drawing.parts.flatMap((part) => (part.kind === "pipe" ? [] : drawingOfKind(part).draw(drawing, part))),
      ...drawPipes(drawing),
      ...dimensions,
      ...placer.placed.flatMap((label) => label.nodes),
      ...scaleBar,
      ...drawRuler(drawing),
    ],
  };
}

/** Pipes that tee into each other as one: all walls, then all that is in them, so that joints are open. Others one
 * after the other, so that crossings stay crossings. */
function drawPipes(drawing: Drawing): readonly SceneNode[] {
  const pipes = drawing.parts.filter((part): part is Pipe => part.kind === "pipe");
  return joined(pipes).flatMap((group) => [
    ...group.flatMap((pipe) => pipeWalls(drawing, pipe)),
    ...group.flatMap((pipe) => pipeContent(drawing, pipe)),
  ]);
}

function joined(pipes: readonly Pipe[]): readonly (readonly Pipe[])[] {
  const head = new Map<PartId, PartId>(pipes.map((pipe) => [pipe.id, pipe.id]));
  const find = (id: PartId): PartId => {
    let at = id;
    while (head.get(at) !== at) at = head.get(at) as PartId;
    head.set(id, at);
    return at;
  };
  for (const pipe of pipes)
    for (const end of [pipe.from, pipe.to])
      if ("pipe" in end && head.has(end.pipe)) head.set(find(pipe.id), find(end.pipe));
  const groups = new Map<PartId, Pipe[]>();
  for (const pipe of pipes) {
    const group = groups.get(find(pipe.id));
    if (group) group.push(pipe);
    else groups.set(find(pipe.id), [pipe]);
  }
  return [...groups.values()];
}

/** What decides is served first: notes stand where they were put, then levels, flows, then names. */
const rankOf: Readonly<Record<Part["kind"], number>> = {
  note: 0,
  vessel: 1,
  pond: 2,
  vent: 3,
  pump: 4,
  checkValve: 4,
  valve: 4,
  spillway: 4,
  pipe: 5,
};

function inOrder(drawing: Drawing): readonly LabelRequest[] {
  const asked = drawing.parts.map((part) => ({
    rank: rankOf[part.kind],
    requests: drawingOfKind(part).labels(drawing, part),
  }));
  const ranked: { rank: number; request: LabelRequest }[] = [];
  for (const { rank, requests } of asked) {
    for (const [i, request] of requests.entries()) ranked.push({ rank: rank + i * 1.5, request });
  }
  return ranked.sort((a, b) => a.rank - b.rank).map(({ request }) => request);
}
