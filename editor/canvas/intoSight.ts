/** Cameras for those who move the sheet by keyboard: to what they came to, and along. */
import type { Part, Section } from "../../hydraulics/index.ts";
import { type Bounds, extremesOf, type Rect } from "../sheet/transform.ts";
import type { Camera } from "../state/view.ts";
import { anchorOf } from "./anchorOf.ts";
import { inSight, zoomedAt } from "./zoom.ts";

/** What of a part has to be seen, m. */
export function placesOf(section: Section, part: Part): Bounds {
  const places = [anchorOf(section, part), ...extremesOf(section, part)];
  const xs = places.map(([x]) => x);
  const zs = places.map(([, z]) => z);
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...zs), top: Math.max(...zs) };
}

/** px by which something may stand out and still be in sight: a fitted drawing touches the edges. */
const slack = 1;
/** px between what is brought into sight and the edge that it comes in at, where there is room */
const air = 24;

/** The camera, moved no further than that all of the bounds lie in the rectangle (px of the window), and from further
 * away where they do not go into it. */
export function intoSight(camera: Camera, bounds: Bounds, rect: Rect): Camera {
  const { left, right, bottom, top } = bounds;
  const most = Math.min(rect.width / (right - left), rect.height / (top - bottom));
  const middle = [rect.x + rect.width / 2, rect.y + rect.height / 2] as const;
  const { x0, z0, scale } = camera.scale * (1 - 1e-9) > most ? zoomedAt(camera, middle, most) : camera;
  const dx = outBy((left - x0) * scale - rect.x, (right - x0) * scale - rect.x, rect.width);
  const dy = outBy((z0 - top) * scale - rect.y, (z0 - bottom) * scale - rect.y, rect.height);
  if (dx === 0 && dy === 0 && scale === camera.scale) return camera;
  return { scale, x0: x0 + dx / scale, z0: z0 - dy / scale };
}

/** px that a stretch has to go back to lie between 0 and a length; below 0 where it has to go on */
function outBy(from: number, to: number, length: number): number {
  const room = Math.min(air, Math.max(length - (to - from), 0) / 2);
  if (from < -slack) return from - room;
  return to > length + slack ? to - length + room : 0;
}

/** Part of what is seen that a key moves the sheet on by */
const stride = 1 / 3;

/** The camera a stride to the right and down (1, 0 or -1 each), never so far that the drawing is lost.
 * @param bounds m, what there is to see
 * @param rect px of the window that show it */
export function strode(
  camera: Camera,
  [right, down]: readonly [number, number],
  bounds: Bounds,
  { x, y, width, height }: Rect,
): Camera {
  const { scale } = camera;
  // As though the rectangle were the window.
  const moved = {
    scale,
    x0: camera.x0 + (x + right * stride * width) / scale,
    z0: camera.z0 - (y + down * stride * height) / scale,
  };
  const seen = inSight(moved, bounds, { width, height });
  return { scale, x0: seen.x0 - x / scale, z0: seen.z0 + y / scale };
}
