/** Site metres and paper millimetres in pixels of the window, for painting and for the pointer. The window is
 * the sheet: a millimetre of paper is a CSS millimetre. */
import type { Point } from "../../hydraulics/index.ts";
import type { Offset, Place, Space, Weight } from "../scene/node.ts";
import { textWidth } from "../scene/textWidth.ts";
import { pxPerMm } from "../sheet/transform.ts";
import type { Camera } from "../state/view.ts";

export type Px = readonly [x: number, y: number];

export interface Projection {
  readonly camera: Camera;
  readonly pxPerMm: number;
  readonly pxPerMetre: number;
  px(space: Space, place: Place, offset?: Offset): Px;
  site(at: Px): Point;
  textWidth(text: string, size: number, weight: Weight): number;
}

export function projectionOf(camera: Camera): Projection {
  const { x0, z0, scale } = camera;
  return {
    camera,
    pxPerMm,
    pxPerMetre: scale,
    px: (space, [x, z], offset) => {
      const dx = (offset?.[0] ?? 0) * pxPerMm;
      const dy = (offset?.[1] ?? 0) * pxPerMm;
      return space === "site" ? [(x - x0) * scale + dx, (z0 - z) * scale + dy] : [x * pxPerMm + dx, z * pxPerMm + dy];
    },
    site: ([x, y]) => [x0 + x / scale, z0 - y / scale],
    textWidth,
  };
}
