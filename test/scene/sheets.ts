/** Scenes of drawings as a window or a sheet would show them. */
import { composeScene, type Scene, type SceneView } from "../../editor/scene/build.ts";
import { fitSection, type LayoutOptions } from "../../editor/scene/layout.ts";
import type { SheetTransform } from "../../editor/sheet/transform.ts";
import type { Section } from "../../hydraulics/index.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

export interface Window {
  readonly width: number;
  readonly height: number;
}

const pxPerMm = 96 / 25.4;
/** px, as window sizes are told */
export const windows = { wide: [1440, 900], middle: [1024, 768], narrow: [390, 844] } as const;
export const paperOfWindow = ([width, height]: readonly [number, number]): Window => ({
  width: width / pxPerMm,
  height: height / pxPerMm,
});

type Mm = readonly [number, number];

/** Places along a line every 0.1 mm, its corners among them. */
export function* sampled(points: readonly Mm[]): Iterable<Mm> {
  for (let i = 1; i < points.length; i++) {
    const [ax, ay] = points[i - 1] as Mm;
    const [bx, by] = points[i] as Mm;
    const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / 0.1));
    for (let k = 0; k <= steps; k++) yield [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps];
  }
}

/** The whole section on the sheet, then nearer or further about the sheet's middle. */
export function zoomed(section: Section, paper: Window, zoom: number, options: LayoutOptions = {}): SheetTransform {
  const fitted = fitSection(section, paper, { headroom: 16, ...options });
  const middle = { x: paper.width / 2 / fitted.mmPerMetre, z: paper.height / 2 / fitted.mmPerMetre };
  return {
    mmPerMetre: fitted.mmPerMetre * zoom,
    x0: fitted.x0 + middle.x - middle.x / zoom,
    z0: fitted.z0 - middle.z + middle.z / zoom,
  };
}

export function sceneOf(
  section: Section,
  paper: Window,
  view: Partial<SceneView> & LayoutOptions & { readonly zoom?: number } = {},
): Scene {
  const { running, powerCut, findings } = assessmentOf(section);
  const { zoom, ...rest } = view;
  const transform = zoomed(section, paper, zoom ?? 1, view);
  return composeScene({
    section,
    running,
    powerCut,
    findings,
    view: { system: "metric", moment: null, transform, paper, headroom: 16, ...rest },
  });
}
