/** What is on the sheet, as data. Two thin back ends paint it (canvas and SVG) and neither knows what a
 * pump is. A place is a site place in metres (x right, z up) plus an offset in millimetres of paper
 * (right, down), so that letters, marks and symbols keep their size while the section zooms. Paper-only
 * things (frame, title block, strip) live in a layer whose transform is paper itself: `space: "paper"`.
 * Colours are roles, resolved by the back end's palette. */
import type { PartId } from "../../hydraulics/index.ts";

export type Space = "site" | "paper";
/** In "site": metres. In "paper": millimetres from the sheet's upper left corner, down positive. */
export type Place = readonly [x: number, z: number];
/** Millimetres of paper added after the transform: right, down. */
export type Offset = readonly [dx: number, dy: number];

export type Role =
  | "desk"
  | "sheet"
  | "ink"
  | "soft"
  | "hair"
  | "water"
  | "waterline"
  | "ground"
  | "hatch"
  | "stone"
  | "stoneLine"
  | "held"
  | "part"
  | "drains"
  | "plant"
  | "focus"
  | "none";

/** Line widths in millimetres of paper, by meaning. */
export type Pen = "outline" | "part" | "dimension" | "hair" | "pipe";

interface Base {
  /** Stable across rebuilds, so that back ends can keep what did not change. */
  readonly key: string;
  readonly part: PartId | null;
  readonly space: Space;
  /** `back` earth and hatch, `bodies`, `pipes`, `devices`, `marks` levels and dimensions, `labels`, `frame`. */
  readonly layer: "back" | "bodies" | "pipes" | "devices" | "marks" | "labels" | "frame";
  /** 0…1, default 1 */
  readonly opacity?: number;
}

export interface LineNode extends Base {
  readonly shape: "line";
  readonly points: readonly Place[];
  /** one an entry of `points`, or absent */
  readonly offsets?: readonly Offset[];
  readonly closed?: boolean;
  readonly stroke: Role;
  readonly fill?: Role;
  readonly pen: Pen;
  /** widths in site metres (a pipe at its true bore); the pen is then its least width */
  readonly siteWidth?: number;
  readonly dash?: readonly number[];
  readonly join?: "round" | "miter";
  /** rounds corners by this many mm */
  readonly cap?: "round" | "butt";
}

export interface CircleNode extends Base {
  readonly shape: "circle";
  readonly at: Place;
  readonly offset?: Offset;
  /** millimetres, or metres when `siteRadius` */
  readonly radius: number;
  readonly siteRadius?: boolean;
  readonly stroke: Role;
  readonly fill?: Role;
  readonly pen: Pen;
}

/** SVG path data in millimetres of paper about a place: symbols. */
export interface PathNode extends Base {
  readonly shape: "path";
  readonly at: Place;
  readonly offset?: Offset;
  readonly data: string;
  /** degrees clockwise */
  readonly turn?: number;
  readonly scale?: number;
  readonly stroke: Role;
  readonly fill?: Role;
  readonly pen: Pen;
}

export type Weight = 400 | 500 | 600;
export interface TextNode extends Base {
  readonly shape: "text";
  readonly at: Place;
  readonly offset?: Offset;
  readonly text: string;
  readonly anchor: "start" | "middle" | "end";
  /** cap height band as type size in mm of paper */
  readonly size: number;
  readonly weight: Weight;
  readonly fill: Role;
  readonly turn?: number;
}

export type SceneNode = LineNode | CircleNode | PathNode | TextNode;
