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
    // Of each point that is painted. By index, not by pattern: that makes an iterator until the browser has compiled it.
    px: (space, place, offset) => {
      const dx = offset ? offset[0] * pxPerMm : 0;
      const dy = offset ? offset[1] * pxPerMm : 0;
      return space === "site"
        ? [(place[0] - x0) * scale + dx, (z0 - place[1]) * scale + dy]
        : [place[0] * pxPerMm + dx, place[1] * pxPerMm + dy];
    },
    site: ([x, y]) => [x0 + x / scale, z0 - y / scale],
    textWidth,
  };
}
