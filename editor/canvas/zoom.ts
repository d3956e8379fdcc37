/** Cameras that look at the sheet from nearer or further. */
import type { Point } from "../../hydraulics/index.ts";
import type { Bounds, Rect } from "../sheet/transform.ts";
import type { Camera } from "../state/view.ts";
import type { Projection, Px } from "./projection.ts";

/** @param scale px a metre */
export const withinReason = (scale: number): number => Math.min(Math.max(scale, 4), 20000);

/** What lies under the place stays under it. */
export function zoomedAt(camera: Camera, at: Px, scale: number): Camera {
  const x = camera.x0 + at[0] / camera.scale;
  const z = camera.z0 - at[1] / camera.scale;
  return { x0: x - at[0] / scale, z0: z + at[1] / scale, scale };
}

/** px of the drawing that stay in the window, however far the sheet is moved */
const leastSeen = 60;

/** The camera, moved back where next to nothing of the drawing would be seen: a flick of a wheel must not lose it.
 * @param bounds m, what there is to see
 * @param size px of the window */
export function inSight(
  camera: Camera,
  bounds: Bounds,
  size: { readonly width: number; readonly height: number },
): Camera {
  const { scale } = camera;
  const between = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);
  return {
    scale,
    x0: between(camera.x0, bounds.left - (size.width - leastSeen) / scale, bounds.right - leastSeen / scale),
    z0: between(camera.z0, bounds.bottom + leastSeen / scale, bounds.top + (size.height - leastSeen) / scale),
  };
}

export interface Pinch {
  readonly camera: Camera;
  /** between the two fingers, and how far they were apart, when the second came down */
  readonly middle: Px;
  readonly span: number;
}

/** What lay between the fingers goes with them. */
export function pinchedFrom({ camera, middle, span }: Pinch, a: Px, b: Px): Camera {
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const scale = withinReason(camera.scale * (Math.hypot(a[0] - b[0], a[1] - b[1]) / Math.max(span, 1)));
  return {
    x0: camera.x0 + middle[0] / camera.scale - x / scale,
    z0: camera.z0 - middle[1] / camera.scale + y / scale,
    scale,
  };
}

/** Whether a place of the site lies in a rectangle of the window. */
export const isWithin = (projection: Projection, place: Point, rect: Rect): boolean =>
  isInRect(projection.px("site", place), rect);

export const isInRect = ([px, py]: Px, { x, y, width, height }: Rect): boolean =>
  px >= x && px <= x + width && py >= y && py <= y + height;
