/** The sheet on four canvases that lie on each other: earth, bodies and pipes · arrows, which move at the water's speed ·
 * all that stands over the pipes · the marks of the hand. While something moves they are hidden, and others stand in their
 * place: a drag paints what rests once, at its start (`movingPainter.ts`). */
import type { Context } from "konva/lib/Context.js";
import Konva from "konva/lib/Core.js";
import type { Shape as KonvaShape } from "konva/lib/Shape.js";
import { type JSX, memo, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { Layer, Shape, Stage } from "react-konva/lib/ReactKonvaCore.js";
import type { SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import type { Rect } from "../sheet/transform.ts";
import { Moving } from "./Moving.tsx";
import { isLow } from "./over.ts";
import { type Brush, inPaintOrder, paint } from "./paint.ts";
import { allAtRest, next, type RestAndLive } from "./restAndLive.ts";

export interface SheetCanvasProps {
  readonly width: number;
  readonly height: number;
  readonly pieces: readonly Piece[];
  /** the hand, drawn over everything: handles, guides, the marquee */
  readonly over: readonly SceneNode[];
  /** px: where the section is; the hand's marks end there */
  readonly field: Rect;
  readonly brush: Brush;
  /** something is dragged, or the power cut plays */
  readonly moving: boolean;
  /** the arrows in the pipes at a moment, s; null where nothing may move */
  readonly arrowsAt: ((clock: number) => readonly SceneNode[]) | null;
}

export const SheetCanvas = memo(function SheetCanvas(props: SheetCanvasProps): JSX.Element {
  const { width, height, pieces, over, field, brush, moving, arrowsAt } = props;
  const pixelRatio = useDevicePixelRatio();
  const memory = useRef<{ brush: Brush; parts: RestAndLive } | null>(null);
  // Another brush (zoom, theme) paints everything anew, whatever moves.
  const before = memory.current;
  const parts =
    before && before.brush === brush ? next(before.parts, pieces, moving, brush) : allAtRest(pieces, moving);
  memory.current = { brush, parts };
  // Hidden while something moves: it stays as it was until that rests, and costs a drag nothing.
  const resting = useRef<RestingProps>({ pieces: [], over: nothing, field, brush, width, height, arrowsAt: null });
  if (!moving) resting.current = { pieces, over, field, brush, width, height, arrowsAt };
  const { base, rest, live, gone } = parts;
  return (
    <>
      <div style={moving ? hidden : undefined}>
        <Resting {...resting.current} arrowsAt={moving ? null : arrowsAt} key={pixelRatio} />
      </div>
      <Moving picture={moving ? { base, rest, live, gone, over, field, brush, width, height, pixelRatio } : null} />
    </>
  );
});

interface RestingProps extends Omit<SheetCanvasProps, "moving"> {}

const Resting = memo(function Resting({
  pieces,
  over,
  field,
  brush,
  width,
  height,
  arrowsAt,
}: RestingProps): JSX.Element {
  const { below, arrows, above } = useMemo(() => {
    const nodes = pieces.flatMap((piece) => piece.nodes);
    return {
      below: nodes.filter((node) => !isOverPipes(node) && !isArrow(node)),
      arrows: nodes.filter(isArrow),
      above: nodes.filter(isOverPipes),
    };
  }, [pieces]);
  return (
    <Stage width={width} height={height} listening={false}>
      <Layer listening={false}>
        <Painted nodes={below} brush={brush} />
      </Layer>
      <Layer listening={false}>
        {arrowsAt ? <Flowing arrowsAt={arrowsAt} brush={brush} /> : <Painted nodes={arrows} brush={brush} />}
      </Layer>
      <Layer listening={false}>
        <Painted nodes={above} brush={brush} />
      </Layer>
      <Layer listening={false} clip={field}>
        <Painted nodes={over} brush={brush} />
      </Layer>
    </Stage>
  );
});

const nothing: readonly SceneNode[] = [];
const hidden = { display: "none" } as const;

const isOverPipes = (node: SceneNode): boolean => !isLow(node) && node.layer !== "pipes";
/** Of all that lies in the pipes only the arrows are symbols. */
export const isArrow = (node: SceneNode): boolean => node.layer === "pipes" && node.shape === "path";

interface PaintedProps {
  readonly nodes: readonly SceneNode[];
  readonly brush: Brush;
}

/** One konva shape paints a whole list: konva keeps the layers, their pixels and their redraws.
 *
 * The layer is drawn here and now. Asked by React, konva would wait for the next frame: a drag would be shown a
 * frame late, and the browser would put every move together twice, once for the page and once for the canvas. */
const Painted = memo(function Painted({ nodes, brush }: PaintedProps): JSX.Element {
  const shape = useRef<KonvaShape>(null);
  const ordered = useMemo(() => inPaintOrder(nodes), [nodes]);
  const shown = useRef({ ordered, brush });
  useLayoutEffect(() => {
    shown.current = { ordered, brush };
    shape.current?.getLayer()?.drawScene();
  }, [ordered, brush]);
  // The same function always: React has nothing to tell konva.
  const sceneFunc = useCallback((context: Context) => {
    const { current } = shown;
    paint(context._context, current.ordered, current.brush);
  }, []);
  return <Shape ref={shape} listening={false} perfectDrawEnabled={false} sceneFunc={sceneFunc} />;
});

interface FlowingProps {
  readonly arrowsAt: (clock: number) => readonly SceneNode[];
  readonly brush: Brush;
}

/** ms between two pictures of the arrows: water in pipes is slow, and a battery is small */
const beat = 40;

function Flowing({ arrowsAt, brush }: FlowingProps): JSX.Element {
  const shape = useRef<KonvaShape>(null);
  useEffect(() => {
    let frame = 0;
    let last = 0;
    const step = (time: number): void => {
      if (time - last >= beat) {
        last = time;
        shape.current?.getLayer()?.batchDraw();
      }
      frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, []);
  return (
    <Shape
      ref={shape}
      listening={false}
      perfectDrawEnabled={false}
      sceneFunc={(context: Context) => paint(context._context, arrowsAt(performance.now() / 1000), brush)}
    />
  );
}

/** Follows the window to a screen with other pixels, and the browser's own zoom. */
function useDevicePixelRatio(): number {
  const [ratio, setRatio] = useState(window.devicePixelRatio);
  useEffect(() => {
    const query = window.matchMedia(`(resolution: ${ratio}dppx)`);
    const changed = (): void => {
      Konva.pixelRatio = window.devicePixelRatio;
      setRatio(window.devicePixelRatio);
    };
    query.addEventListener("change", changed);
    return () => query.removeEventListener("change", changed);
  }, [ratio]);
  return ratio;
}
