/** The paper, the drawing frame with its centring marks (ISO 5457), and the paper outside it, which covers whatever the
 * section has run out to. */
import type { Drawing } from "./drawing.ts";
import { corners, stroke } from "./ink.ts";
import { isNarrow } from "./layout.ts";
import type { SceneNode } from "./node.ts";

/** mm of desk round the sheet of a window */
const deskWidth = 2.2;

export const drawPaper = ({ input }: Drawing): SceneNode => ({
  key: "sheet paper",
  part: null,
  space: "paper",
  layer: "back",
  shape: "line",
  closed: true,
  stroke: "none",
  fill: "sheet",
  pen: "hair",
  points: corners({ x: 0, y: 0, ...input.view.paper }),
});

/** A window shows the desk that the sheet lies on; a print is the sheet. */
function desk({ input }: Drawing): readonly SceneNode[] {
  if (input.view.isoMargins !== undefined) return [];
  const { width, height } = input.view.paper;
  const d = isNarrow({ width }) ? 0.8 : deskWidth;
  const data = `M0 0H${width}V${height}H0ZM${d} ${d}V${height - d}H${width - d}V${d}Z`;
  return [
    {
      key: "sheet desk",
      part: null,
      space: "paper",
      layer: "frame",
      shape: "path",
      at: [0, 0],
      pen: "hair",
      stroke: "none",
      fill: "desk",
      data,
    },
    stroke("sheet edge", corners({ x: d, y: d, width: width - 2 * d, height: height - 2 * d }), "dimension", "hair", {
      closed: true,
    }),
  ];
}

export function drawFrame(drawing: Drawing): readonly SceneNode[] {
  const { layout, input } = drawing;
  const { frame } = layout;
  const { width, height } = input.view.paper;
  const [left, top, right, bottom] = [frame.x, frame.y, frame.x + frame.width, frame.y + frame.height];
  const [cx, cy] = [left + frame.width / 2, top + frame.height / 2];
  const out = Math.min(3.5, frame.y - 0.5);
  const mark = (key: string, a: readonly [number, number], b: readonly [number, number]): SceneNode =>
    stroke(`sheet centring ${key}`, [a, b], "part", "ink");
  return [
    {
      key: "sheet margin",
      part: null,
      space: "paper",
      layer: "frame",
      shape: "path",
      at: [0, 0],
      pen: "hair",
      stroke: "none",
      fill: "sheet",
      data: `M0 0H${width}V${height}H0ZM${left} ${top}V${bottom}H${right}V${top}Z`,
    },
    ...desk(drawing),
    stroke("sheet frame", corners(frame), "outline", "ink", { closed: true, join: "miter" }),
    mark("top", [cx, top - out], [cx, top + 2]),
    mark("bottom", [cx, bottom - 2], [cx, bottom + out]),
    mark("left", [left - out, cy], [left + 2, cy]),
    mark("right", [right - 2, cy], [right + out, cy]),
  ];
}
