/** Short forms for what stands on the paper itself: lines, boxes and words in millimetres. */
import type { Rect } from "../sheet/transform.ts";
import type { LineNode, Pen, Role, SceneNode, TextNode, Weight } from "./node.ts";
import type { Mm } from "./obstacles.ts";

export interface TextStyle {
  readonly size: number;
  readonly weight?: Weight;
  readonly fill?: Role;
  readonly anchor?: TextNode["anchor"];
}

export const words = (
  key: string,
  at: Mm,
  text: string,
  { size, weight = 400, fill = "ink", anchor = "start" }: TextStyle,
): SceneNode => ({
  part: null,
  space: "paper",
  layer: "frame",
  key,
  shape: "text",
  at,
  text,
  anchor,
  size,
  weight,
  fill,
});

export const stroke = (
  key: string,
  points: readonly Mm[],
  pen: Pen,
  colour: Role,
  more: Partial<Pick<LineNode, "dash" | "closed" | "fill" | "opacity" | "join">> = {},
): SceneNode => ({
  part: null,
  space: "paper",
  layer: "frame",
  key,
  shape: "line",
  points,
  pen,
  stroke: colour,
  ...more,
});

export const corners = ({ x, y, width, height }: Rect): readonly Mm[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

export const box = (
  key: string,
  rect: Rect,
  look: { readonly pen: Pen; readonly stroke: Role; readonly fill: Role },
): SceneNode => stroke(key, corners(rect), look.pen, look.stroke, { closed: true, fill: look.fill, join: "miter" });
