/** Document, solution and findings as scene nodes: the drawing stage. Pure, and the same for both back ends. */
import type { Finding, PartId, PowerCut, Running, Section } from "../../hydraulics/index.ts";
import type { SheetTransform } from "../sheet/transform.ts";
import type { UnitSystem } from "../sheet/units.ts";
import type { Drawing } from "./drawing.ts";
import type { PlacedLabel } from "./labels.ts";
import type { LayoutOptions } from "./layout.ts";
import type { SceneNode } from "./node.ts";
import { compose, composeDrawing, isOfSection, nodesOf, type Picture } from "./picture.ts";
import type { PlayedRun } from "./played.ts";

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
  /** the hydraulic grade line over the pipes */
  readonly gradeLine?: boolean;
  /** s; moves the flow arrows on at the water's speed */
  readonly clock?: number;
}

export interface SceneInput {
  readonly section: Section;
  /** null while nothing has been solved yet */
  readonly running: Running | null;
  /** null where there is none (nothing to simulate, or not yet) */
  readonly powerCut: PowerCut | null;
  /** the power cut is being followed: its answer is still to come */
  readonly following?: boolean;
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
export const composeScene = (input: SceneInput): Scene => sceneOf(compose(input));

/** The section alone, with its ruler and scale bar: no paper, frame, strip or title block. */
export function composeSection(drawing: Drawing): Scene {
  const picture = composeDrawing(drawing);
  return sceneOf({ ...picture, pieces: picture.pieces.filter(isOfSection) });
}

const sceneOf = (picture: Picture): Scene => ({ nodes: nodesOf(picture), labels: picture.labels });
