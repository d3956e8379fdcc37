/** Paints scene nodes as SVG elements. Like the canvas, it switches on the shape of a node and on nothing else.
 *
 * All numbers are millimetres of the printed sheet. `mm` says how many of them a millimetre of the scene takes:
 * a small sheet is laid out like a larger one and drawn smaller, letters and all. Pens keep their true width. */
import { inPaintOrder } from "../canvas/paint.ts";
import type { CircleNode, LineNode, Offset, PathNode, Pen, Place, SceneNode, Space, TextNode } from "../scene/node.ts";
import { fontFamily, type Palette } from "../scene/palette.ts";
import { textWidth } from "../scene/textWidth.ts";
import { paperOf, type SheetTransform } from "../sheet/transform.ts";
import { type Attributes, element, figure } from "./element.ts";
import { escaped } from "./escaped.ts";

export interface SvgBrush {
  readonly transform: SheetTransform;
  readonly palette: Palette;
  /** mm of the printed sheet */
  readonly pens: Readonly<Record<Pen, number>>;
  /** mm of the printed sheet that a mm of the scene takes */
  readonly mm: number;
}

/** One group a layer, in the order in which they lie on each other. */
export function paintSvg(nodes: readonly SceneNode[], brush: SvgBrush): string {
  const groups: string[] = [];
  let layer: SceneNode["layer"] | null = null;
  let painted: string[] = [];
  const close = (): void => {
    const shapes = painted.filter((each) => each !== "");
    if (layer !== null && shapes.length > 0) groups.push(element("g", groupOf(layer), `\n${shapes.join("\n")}\n`));
  };
  for (const node of inPaintOrder(nodes)) {
    if (node.layer !== layer) {
      close();
      layer = node.layer;
      painted = [];
    }
    painted.push(paintNode(node, brush));
  }
  close();
  return groups.join("\n");
}

const groupOf = (layer: SceneNode["layer"]): Attributes => ({
  class: layer,
  fill: "none",
  "stroke-miterlimit": 4,
  "font-family": fontFamily,
  // As on the screen: at its own widths, not fitted to whole pixels.
  "text-rendering": "geometricPrecision",
  "font-variant-numeric": "tabular-nums",
});

function paintNode(node: SceneNode, brush: SvgBrush): string {
  switch (node.shape) {
    case "line":
      return paintLine(node, brush);
    case "circle":
      return paintCircle(node, brush);
    case "path":
      return paintPath(node, brush);
    case "text":
      return paintText(node, brush);
  }
}

function placed(
  { transform, mm }: SvgBrush,
  space: Space,
  place: Place,
  offset: Offset = [0, 0],
): readonly [number, number] {
  const [x, y] = space === "site" ? paperOf(transform, place) : place;
  return [(x + offset[0]) * mm, (y + offset[1]) * mm];
}

function inked(node: LineNode | CircleNode | PathNode, { palette }: SvgBrush, width: number): Attributes {
  const stroked = node.stroke !== "none";
  return {
    fill: node.fill && node.fill !== "none" ? palette[node.fill] : undefined,
    stroke: stroked ? palette[node.stroke] : undefined,
    "stroke-width": stroked ? width : undefined,
    opacity: node.opacity === undefined || node.opacity === 1 ? undefined : node.opacity,
  };
}

function paintLine(node: LineNode, brush: SvgBrush): string {
  const { transform, pens, mm } = brush;
  const width = Math.max((node.siteWidth ?? 0) * transform.mmPerMetre * mm, pens[node.pen]);
  const points = node.points.map((point, i) => placed(brush, node.space, point, node.offsets?.[i]));
  const lines: Attributes = {
    ...inked(node, brush, width),
    "stroke-linejoin": node.join === "round" ? "round" : undefined,
    "stroke-linecap": node.cap === "round" ? "round" : undefined,
    "stroke-dasharray": node.dash ? node.dash.map((length) => figure(length * mm)).join(" ") : undefined,
  };
  const [first, second] = points;
  if (points.length === 2 && !node.closed && first && second)
    return element("line", { x1: first[0], y1: first[1], x2: second[0], y2: second[1], ...lines });
  if (points.length < 2) return "";
  return element(node.closed ? "polygon" : "polyline", {
    points: points.map(([x, y]) => `${figure(x)},${figure(y)}`).join(" "),
    ...lines,
  });
}

function paintCircle(node: CircleNode, brush: SvgBrush): string {
  const [cx, cy] = placed(brush, node.space, node.at, node.offset);
  const r = Math.max(node.radius * (node.siteRadius ? brush.transform.mmPerMetre : 1) * brush.mm, 0);
  return element("circle", { cx, cy, r, ...inked(node, brush, brush.pens[node.pen]) });
}

function paintPath(node: PathNode, brush: SvgBrush): string {
  const [x, y] = placed(brush, node.space, node.at, node.offset);
  const scale = brush.mm * (node.scale ?? 1);
  const turn = node.turn ? ` rotate(${figure(node.turn)})` : "";
  const size = scale === 1 ? "" : ` scale(${figure(scale)})`;
  return element("path", {
    d: node.data,
    transform: `translate(${figure(x)} ${figure(y)})${turn}${size}`,
    // The pen keeps its width whatever the symbol's scale.
    ...inked(node, brush, brush.pens[node.pen] / scale),
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
}

function paintText(node: TextNode, brush: SvgBrush): string {
  if (node.fill === "none" || node.text === "") return "";
  const [x, y] = placed(brush, node.space, node.at, node.offset);
  const size = node.size * brush.mm;
  const measured = isMeasured(node.text) && node.text.length > 1;
  return element(
    "text",
    {
      x,
      y,
      "font-size": size,
      "font-weight": node.weight,
      "text-anchor": node.anchor === "start" ? undefined : node.anchor,
      fill: brush.palette[node.fill],
      opacity: node.opacity === undefined || node.opacity === 1 ? undefined : node.opacity,
      transform: node.turn ? `rotate(${figure(node.turn)} ${figure(x)} ${figure(y)})` : undefined,
      // Where the sheet's face is missing, another takes the room that was measured for this one, and no more.
      textLength: measured ? textWidth(node.text, size, node.weight) : undefined,
      lengthAdjust: measured ? "spacingAndGlyphs" : undefined,
    },
    escaped(node.text),
  );
}

/** Latin letters, figures and signs, whose width is known. Other scripts are only guessed at, and a wrong guess
 * would pull joined letters apart. */
const isMeasured = (text: string): boolean => /^[\u0020-\u024F\u2010-\u2265]*$/.test(text);
