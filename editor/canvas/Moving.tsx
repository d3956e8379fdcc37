/** All of a picture that moves, on one canvas: what rests is painted once, aside; in each frame the places that change
 * are put together anew of what rests below, what moves, what rests over it, and what moves over that.
 *
 * Every canvas on the page costs the browser a copy of all its pixels in each frame, whether it changed or not
 * (measured without a graphics card: 1 to 2 ms each at 1440 × 900). Four on each other were half of a drag's work. */
import type { Context } from "konva/lib/Context.js";
import type { Shape as KonvaShape } from "konva/lib/Shape.js";
import { type JSX, memo, useCallback, useLayoutEffect, useRef } from "react";
import { Shape } from "react-konva/lib/ReactKonvaCore.js";
import type { SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import { around, type Box, boxOfNode, boxOfPiece } from "./inkBox.ts";
import { type Brush, inPaintOrder, paint } from "./paint.ts";

export interface MovingProps {
  readonly rest: readonly Piece[];
  readonly live: readonly Piece[];
  readonly over: readonly SceneNode[];
  readonly brush: Brush;
  readonly width: number;
  readonly height: number;
}

export const isLow = (node: SceneNode): boolean => node.layer === "back" || node.layer === "bodies";
export const isHigh = (node: SceneNode): boolean => !isLow(node);

const nodesOf = (pieces: readonly Piece[]): readonly SceneNode[] => inPaintOrder(pieces.flatMap(({ nodes }) => nodes));

interface Aside {
  readonly low: HTMLCanvasElement;
  readonly high: HTMLCanvasElement;
}

interface Painted {
  readonly props: MovingProps;
  readonly aside: Aside;
  readonly boxes: readonly Box[];
}

export const Moving = memo(function Moving(props: MovingProps): JSX.Element {
  const shape = useRef<KonvaShape>(null);
  const latest = useRef(props);
  const painted = useRef<Painted | null>(null);
  latest.current = props;
  const sceneFunc = useCallback((context: Context) => {
    const { _context: canvas } = context;
    painted.current = paintMoved(canvas, latest.current, painted.current);
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each of them is painted
  useLayoutEffect(() => {
    shape.current?.getLayer()?.drawScene();
  }, [props.rest, props.live, props.over, props.brush, props.width, props.height]);
  return <Shape ref={shape} listening={false} perfectDrawEnabled={false} sceneFunc={sceneFunc} />;
});

/** More places than this are one that holds them all. */
const mostPlaces = 80;

function paintMoved(canvas: CanvasRenderingContext2D, props: MovingProps, before: Painted | null): Painted {
  const { rest, live, over, brush, width, height } = props;
  const ratio = canvas.canvas.width / width;
  const isSameRest =
    before !== null &&
    before.props.rest === rest &&
    before.props.brush === brush &&
    before.props.width === width &&
    before.props.height === height;
  const aside = isSameRest ? before.aside : paintAside(props, canvas.canvas, before?.aside);
  const was = new Set(before?.props.live);
  const is = new Set(live);
  // What left the resting pictures in this frame is among those that move now: all is painted anew then.
  const changed = [
    ...live.filter((piece) => !was.has(piece)),
    ...(before?.props.live.filter((piece) => !is.has(piece)) ?? []),
  ].flatMap((piece) => boxOfPiece(piece, brush) ?? []);
  const boxes = over.map((node) => boxOfNode(node, brush));
  const whole: Box = { left: 0, top: 0, right: width, bottom: height };
  const places = isSameRest ? [...changed, ...before.boxes, ...boxes] : [whole];
  const dirty = places.length > mostPlaces ? [around(places)] : places;
  const nodes = nodesOf(live);
  canvas.save();
  canvas.beginPath();
  for (const box of dirty) {
    const place = onPixels(box, ratio, whole);
    if (place) canvas.rect(...place);
  }
  canvas.clip();
  canvas.clearRect(0, 0, width, height);
  putDown(canvas, aside.low, ratio);
  paint(canvas, nodes.filter(isLow), brush);
  putDown(canvas, aside.high, ratio);
  paint(canvas, nodes.filter(isHigh), brush);
  paint(canvas, over, brush);
  canvas.restore();
  return { props, aside, boxes };
}

/** Pixel on pixel, whatever part of a pixel the window's size leaves over. */
const putDown = (canvas: CanvasRenderingContext2D, aside: HTMLCanvasElement, ratio: number): void =>
  canvas.drawImage(aside, 0, 0, aside.width / ratio, aside.height / ratio);

function onPixels(
  { left, top, right, bottom }: Box,
  ratio: number,
  whole: Box,
): [number, number, number, number] | null {
  const x = Math.max(Math.floor((left - 1) * ratio) / ratio, whole.left);
  const y = Math.max(Math.floor((top - 1) * ratio) / ratio, whole.top);
  const toX = Math.min(Math.ceil((right + 1) * ratio) / ratio, Math.ceil(whole.right));
  const toY = Math.min(Math.ceil((bottom + 1) * ratio) / ratio, Math.ceil(whole.bottom));
  return toX > x && toY > y ? [x, y, toX - x, toY - y] : null;
}

function paintAside({ rest, brush, width }: MovingProps, like: HTMLCanvasElement, old: Aside | undefined): Aside {
  const nodes = nodesOf(rest);
  const ratio = like.width / width;
  return {
    low: paintOne(old?.low, nodes.filter(isLow), brush, like, ratio),
    high: paintOne(old?.high, nodes.filter(isHigh), brush, like, ratio),
  };
}

function paintOne(
  old: HTMLCanvasElement | undefined,
  nodes: readonly SceneNode[],
  brush: Brush,
  like: HTMLCanvasElement,
  ratio: number,
): HTMLCanvasElement {
  const canvas = old ?? document.createElement("canvas");
  // Sets it free of all that was on it, too.
  canvas.width = like.width;
  canvas.height = like.height;
  const context = canvas.getContext("2d");
  if (!context) return canvas;
  context.scale(ratio, ratio);
  paint(context, nodes, brush);
  return canvas;
}
