/** The sheet on canvases that lie on each other: earth and bodies at rest, those that move, the rest at rest, the
 * rest that moves with the marks of the hand. */

import type { Context } from "konva/lib/Context.js";
import Konva from "konva/lib/Core.js";
import { type JSX, memo, useEffect, useMemo, useRef, useState } from "react";
import { Layer, Shape, Stage } from "react-konva/lib/ReactKonvaCore.js";
import type { SceneNode } from "../scene/node.ts";
import { type Brush, inPaintOrder, paint } from "./paint.ts";
import { allAtRest, next, type RestAndLive } from "./restAndLive.ts";

export interface SheetCanvasProps {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly SceneNode[];
  /** the hand, drawn over everything: handles, guides, the marquee */
  readonly over: readonly SceneNode[];
  readonly brush: Brush;
  /** something is dragged, or the power cut plays */
  readonly moving: boolean;
}

export const SheetCanvas = memo(function SheetCanvas({
  width,
  height,
  nodes,
  over,
  brush,
  moving,
}: SheetCanvasProps): JSX.Element {
  const pixelRatio = useDevicePixelRatio();
  const memory = useRef<{ brush: Brush; parts: RestAndLive } | null>(null);
  // Another brush (zoom, theme) paints everything anew, whatever moves.
  const before = memory.current;
  const parts = before && before.brush === brush ? next(before.parts, nodes, moving) : allAtRest(nodes);
  memory.current = { brush, parts };
  // Earth and bodies lie under pipes, whichever of them moves.
  const rest = useMemo(() => lowAndHigh(parts.rest), [parts.rest]);
  const live = useMemo(() => lowAndHigh(parts.live), [parts.live]);
  return (
    <Stage width={width} height={height} listening={false} key={pixelRatio}>
      <Layer listening={false}>
        <Painted nodes={rest.low} brush={brush} />
      </Layer>
      <Layer listening={false}>
        <Painted nodes={live.low} brush={brush} />
      </Layer>
      <Layer listening={false}>
        <Painted nodes={rest.high} brush={brush} />
      </Layer>
      <Layer listening={false}>
        <Painted nodes={live.high} brush={brush} />
        <Painted nodes={over} brush={brush} />
      </Layer>
    </Stage>
  );
});

const lowLayers: ReadonlySet<SceneNode["layer"]> = new Set(["back", "bodies"]);

function lowAndHigh(nodes: readonly SceneNode[]): {
  readonly low: readonly SceneNode[];
  readonly high: readonly SceneNode[];
} {
  return {
    low: nodes.filter((node) => lowLayers.has(node.layer)),
    high: nodes.filter((node) => !lowLayers.has(node.layer)),
  };
}

/** One konva shape paints a whole list: konva keeps the layers, their pixels and their redraws. */
const Painted = memo(function Painted({
  nodes,
  brush,
}: {
  readonly nodes: readonly SceneNode[];
  readonly brush: Brush;
}): JSX.Element {
  return (
    <Shape
      listening={false}
      perfectDrawEnabled={false}
      sceneFunc={(context: Context) => paint(context._context, inPaintOrder(nodes), brush)}
    />
  );
});

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
