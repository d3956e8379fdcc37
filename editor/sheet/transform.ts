/** Site metres, millimetres of paper and pixels of the screen: the only place where one becomes another.
 *
 * A sheet's transform says which site place lies at the paper's upper left corner and how many millimetres
 * of paper a metre takes, the same both ways (true heights). 1:20 is 50 mm a metre. */
import {
  bottomOf,
  drawnWidth,
  type Part,
  type Point,
  pipeLine,
  placeAt,
  type Section,
  siteOf,
} from "../../hydraulics/index.ts";

export interface SheetTransform {
  /** site x at the paper's left edge */
  readonly x0: number;
  /** site level at the paper's upper edge */
  readonly z0: number;
  readonly mmPerMetre: number;
}

/** Millimetres of paper: x to the right, y down. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Site metres. */
export interface Bounds {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** A CSS millimetre. */
export const pxPerMm = 96 / 25.4;
export const mmOfPx = (px: number): number => px / pxPerMm;
export const pxOfMm = (mm: number): number => mm * pxPerMm;
export const pxOfRect = ({ x, y, width, height }: Rect): Rect => ({
  x: pxOfMm(x),
  y: pxOfMm(y),
  width: pxOfMm(width),
  height: pxOfMm(height),
});

export const paperOf = (t: SheetTransform, [x, z]: Point): readonly [x: number, y: number] => [
  (x - t.x0) * t.mmPerMetre,
  (t.z0 - z) * t.mmPerMetre,
];
export const siteAt = (t: SheetTransform, [x, y]: readonly [number, number]): Point => [
  t.x0 + x / t.mmPerMetre,
  t.z0 - y / t.mmPerMetre,
];

/** The same as a camera of the window: site place at the upper left corner, pixels a metre. */
export const transformOfCamera = (camera: {
  readonly x0: number;
  readonly z0: number;
  readonly scale: number;
}): SheetTransform => ({
  x0: camera.x0,
  z0: camera.z0,
  mmPerMetre: mmOfPx(camera.scale),
});
export const cameraOf = (t: SheetTransform): { readonly x0: number; readonly z0: number; readonly scale: number } => ({
  x0: t.x0,
  z0: t.z0,
  scale: pxOfMm(t.mmPerMetre),
});

/** The denominator: 20 for 1:20. */
export const scaleOf = (t: SheetTransform): number => 1000 / t.mmPerMetre;

/** Denominators of the usual drawing scales. */
export const usualScales = [
  1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000,
] as const;

/** The largest drawing scale at which the bounds fit into the rectangle: 1:10, 1:20, 1:25, 1:50 … */
export function trueScale(bounds: Bounds, rect: Rect): number {
  const needed = 1000 / mmPerMetreToFit(bounds, rect);
  return usualScales.find((scale) => scale >= needed * (1 - 1e-9)) ?? Math.ceil(needed);
}

const least = 1e-3;
const mmPerMetreToFit = (b: Bounds, rect: Rect): number =>
  Math.min(rect.width / Math.max(b.right - b.left, least), rect.height / Math.max(b.top - b.bottom, least));

/** Puts the bounds in the middle of a rectangle of the paper, as large as they go or at a given scale. */
export function fit(bounds: Bounds, rect: Rect, scale?: number): SheetTransform {
  // A lone valve would fill the window: never drawn larger than life.
  const mmPerMetre = scale === undefined ? Math.min(mmPerMetreToFit(bounds, rect), 1000) : 1000 / scale;
  return {
    mmPerMetre,
    x0: (bounds.left + bounds.right) / 2 - (rect.x + rect.width / 2) / mmPerMetre,
    z0: (bounds.top + bounds.bottom) / 2 + (rect.y + rect.height / 2) / mmPerMetre,
  };
}

/** Zooms so that the place under a point of the paper stays there. */
export function zoomAt(t: SheetTransform, [x, y]: readonly [number, number], factor: number): SheetTransform {
  const [sx, sz] = siteAt(t, [x, y]);
  const mmPerMetre = Math.min(Math.max(t.mmPerMetre * factor, 0.01), 4000);
  return { mmPerMetre, x0: sx - x / mmPerMetre, z0: sz + y / mmPerMetre };
}

/** What the sheet has to show: every part, the ground beside it, some air over it. A drawing without parts
 * shows four metres of ground. */
export function boundsOf(section: Section): Bounds {
  const ground = siteOf(section).groundLevel;
  let left = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let bottom = ground;
  let top = ground;
  const see = ([x, z]: Point): void => {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, z);
    top = Math.max(top, z);
  };
  for (const part of section.parts.values()) for (const place of extremesOf(section, part)) see(place);
  if (left > right) return { left: -1, right: 3, bottom: ground - 1, top: ground + 1 };
  return { left, right, bottom, top: Math.max(top, bottom + 0.2) };
}

/** The places that a part reaches out to; none of one that only sits on another. */
export function extremesOf(section: Section, part: Part): readonly Point[] {
  switch (part.kind) {
    case "pond":
    case "vessel":
      return [
        [part.x, bottomOf(part)],
        [part.x + drawnWidth(part), part.rimLevel],
      ];
    case "pump":
    case "note":
      return [[part.x, part.z]];
    case "pipe":
      return pipeLine(section, part);
    case "vent": {
      const pipe = section.parts.get(part.on.pipe);
      if (pipe?.kind !== "pipe") return [];
      const [x, z] = placeAt(pipeLine(section, pipe), part.on.at);
      return [[x, part.openEndZ ?? z]];
    }
    case "valve":
    case "checkValve":
    case "spillway":
      return [];
  }
}
