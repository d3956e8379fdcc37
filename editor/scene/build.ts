/** Document, solution and findings as scene nodes: the drawing stage. Pure, and the same for both back ends. */
import type { Finding, PartId, PowerCut, Running, Section } from "../../hydraulics/index.ts";
import type { SheetTransform } from "../sheet/transform.ts";
import type { UnitSystem } from "../sheet/units.ts";
import type { SceneNode } from "./node.ts";

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

export function buildScene(_input: SceneInput): readonly SceneNode[] {
  return [];
}
