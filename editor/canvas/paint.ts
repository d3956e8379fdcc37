/** Paints scene nodes on a canvas. It switches on the shape of a node and on nothing else. */
import type { LineNode, Pen, Place, Role, SceneNode } from "../scene/node.ts";
import type { Projection } from "./projection.ts";

export type Colours = Readonly<Record<Role, string>>;
export type PenWidths = Readonly<Record<Pen, number>>;

export const fontFamily = '"Barlow Semi Condensed", sans-serif';
/** from below */
export const layerOrder: readonly SceneNode["layer"][] = [
  "back",
  "bodies",
  "pipes",
  "devices",
  "marks",
  "labels",
  "frame",
];

export interface Brush {
  readonly projection: Projection;
  readonly colours: Colours;
  /** mm of paper */
  readonly pens: PenWidths;
}

/** Path data is read once; the same symbols come again in every frame. */
const paths = new Map<string, Path2D>();
function pathOf(data: string): Path2D {
  let path = paths.get(data);
  if (!path) {
    if (paths.size > 4000) paths.clear();
    path = new Path2D(data);
    paths.set(data, path);
  }
  return path;
}

/** Nodes in the order in which they are painted: by layer, within a layer as they come. */
export function inPaintOrder(nodes: readonly SceneNode[]): readonly SceneNode[] {
  const byLayer = new Map<SceneNode["layer"], SceneNode[]>(layerOrder.map((layer) => [layer, []]));
  for (const node of nodes) byLayer.get(node.layer)?.push(node);
  return layerOrder.flatMap((layer) => byLayer.get(layer) ?? []);
}

export function paint(context: CanvasRenderingContext2D, nodes: readonly SceneNode[], brush: Brush): void {
  // Letters at the widths that the labels' places are reckoned with, not fitted to whole pixels: "17 min" keeps its
  // space, and every machine sets the same line.
  if (context.textRendering !== "geometricPrecision") context.textRendering = "geometricPrecision";
  // To be told a font takes a canvas longer than to set a line in it; and most nodes hide all that is under them.
  let font = "";
  let alpha = 1;
  context.globalAlpha = 1;
  for (const node of nodes) {
    if (node.shape === "text") {
      const its = `${node.weight} ${node.size * brush.projection.pxPerMm}px ${fontFamily}`;
      if (its !== font) context.font = its;
      font = its;
    }
    const its = node.opacity ?? 1;
    if (its !== alpha) context.globalAlpha = its;
    alpha = its;
    paintNode(context, node, brush);
  }
  context.globalAlpha = 1;
}

function paintNode(context: CanvasRenderingContext2D, node: SceneNode, brush: Brush): void {
  const { projection, colours, pens } = brush;
  switch (node.shape) {
    case "line":
      return paintLine(context, node, brush);
    case "circle": {
      const [x, y] = projection.px(node.space, node.at, node.offset);
      const radius = node.radius * (node.siteRadius ? projection.pxPerMetre : projection.pxPerMm);
      context.beginPath();
      context.arc(x, y, Math.max(radius, 0), 0, 2 * Math.PI);
      return ink(context, colours, node.fill, node.stroke, pens[node.pen] * projection.pxPerMm);
    }
    case "path": {
      const [x, y] = projection.px(node.space, node.at, node.offset);
      const scale = projection.pxPerMm * (node.scale ?? 1);
      const path = pathOf(node.data);
      context.save();
      context.translate(x, y);
      if (node.turn) context.rotate((node.turn * Math.PI) / 180);
      context.scale(scale, scale);
      context.lineJoin = "round";
      context.lineCap = "round";
      if (node.fill && node.fill !== "none") {
        context.fillStyle = colours[node.fill];
        context.fill(path);
      }
      if (node.stroke !== "none") {
        context.strokeStyle = colours[node.stroke];
        // The pen keeps its width whatever the symbol's scale.
        context.lineWidth = pens[node.pen] / (node.scale ?? 1);
        context.stroke(path);
      }
      context.restore();
      return;
    }
    case "text": {
      if (node.fill === "none") return;
      const [x, y] = projection.px(node.space, node.at, node.offset);
      context.textAlign = node.anchor === "middle" ? "center" : node.anchor;
      context.textBaseline = "alphabetic";
      context.fillStyle = colours[node.fill];
      if (!node.turn) return context.fillText(node.text, x, y);
      context.save();
      context.translate(x, y);
      context.rotate((node.turn * Math.PI) / 180);
      context.fillText(node.text, 0, 0);
      context.restore();
    }
  }
}

function paintLine(context: CanvasRenderingContext2D, node: LineNode, { projection, colours, pens }: Brush): void {
  const pen = pens[node.pen] * projection.pxPerMm;
  context.beginPath();
  for (let i = 0; i < node.points.length; i++) {
    const at = projection.px(node.space, node.points[i] as Place, node.offsets?.[i]);
    if (i === 0) context.moveTo(at[0], at[1]);
    else context.lineTo(at[0], at[1]);
  }
  if (node.closed) context.closePath();
  context.lineJoin = node.join ?? "miter";
  context.miterLimit = 4;
  context.lineCap = node.cap ?? "butt";
  if (node.dash) context.setLineDash(node.dash.map((length) => length * projection.pxPerMm));
  const width = node.siteWidth === undefined ? pen : Math.max(node.siteWidth * projection.pxPerMetre, pen);
  ink(context, colours, node.fill, node.stroke, width);
  if (node.dash) context.setLineDash([]);
}

function ink(
  context: CanvasRenderingContext2D,
  colours: Colours,
  fill: Role | undefined,
  stroke: Role,
  width: number,
): void {
  if (fill && fill !== "none") {
    context.fillStyle = colours[fill];
    context.fill();
  }
  if (stroke !== "none") {
    context.strokeStyle = colours[stroke];
    context.lineWidth = width;
    context.stroke();
  }
}
