/** The sheet itself: paper, drawing frame with centring marks (ISO 5457 habits), the ruler of levels on its left
 * edge. The margins are painted over the section, so that a drawing zoomed past the frame ends at it. */
import { formatLevel, levelUnit } from "../sheet/units.ts";
import { siteAt } from "../sheet/transform.ts";
import { type Drawing, paperAt } from "./drawing.ts";
import { rulerWidth } from "./layout.ts";
import { letters } from "./letters.ts";
import type { Place, SceneNode } from "./node.ts";

/** mm of desk round a sheet on a screen */
const desk = 2.2;
const mark = 4;

const rectangle = (x: number, y: number, width: number, height: number): readonly Place[] => [
  [x, y], [x + width, y], [x + width, y + height], [x, y + height],
];

export function drawPaper(drawing: Drawing): readonly SceneNode[] {
  const { width, height } = drawing.input.view.paper;
  return [
    {
      key: "sheet paper", part: null, space: "paper", layer: "back", shape: "line", points: rectangle(0, 0, width, height),
      closed: true, stroke: "none", fill: "sheet", pen: "hair",
    },
  ];
}

export function drawFrame(drawing: Drawing): readonly SceneNode[] {
  const { width, height } = drawing.input.view.paper;
  const { frame } = drawing.layout;
  const onScreen = drawing.input.view.isoMargins === undefined;
  const base = { part: null, space: "paper", layer: "frame" } as const;
  const right = frame.x + frame.width;
  const bottom = frame.y + frame.height;
  const margins = [
    rectangle(0, 0, width, frame.y),
    rectangle(0, bottom, width, height - bottom),
    rectangle(0, 0, frame.x, height),
    rectangle(right, 0, width - right, height),
  ];
  const nodes: SceneNode[] = margins.map((points, i) => ({
    ...base, key: `sheet margin ${i}`, shape: "line", points, closed: true, stroke: "none", fill: "sheet", pen: "hair",
  }));
  if (onScreen) {
    const edges = [
      rectangle(0, 0, width, desk), rectangle(0, height - desk, width, desk), rectangle(0, 0, desk, height), rectangle(width - desk, 0, desk, height),
    ];
    edges.forEach((points, i) => {
      nodes.push({ ...base, key: `sheet desk ${i}`, shape: "line", points, closed: true, stroke: "none", fill: "desk", pen: "hair" });
    });
  }
  nodes.push({ ...base, key: "sheet frame", shape: "line", points: rectangle(frame.x, frame.y, frame.width, frame.height), closed: true, stroke: "ink", pen: "part", join: "miter" });
  const middleX = frame.x + frame.width / 2;
  const middleY = frame.y + frame.height / 2;
  const centring: readonly (readonly [Place, Place])[] = [
    [[middleX, frame.y - mark / 2], [middleX, frame.y + mark / 2]],
    [[middleX, bottom - mark / 2], [middleX, bottom + mark / 2]],
    [[frame.x - mark / 2, middleY], [frame.x + mark / 2, middleY]],
    [[right - mark / 2, middleY], [right + mark / 2, middleY]],
  ];
  centring.forEach((points, i) => {
    nodes.push({ ...base, key: `sheet centring ${i}`, shape: "line", points, stroke: "ink", pen: "dimension" });
  });
  return [...nodes, ...ruler(drawing)];
}

const steps = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50] as const;
const feet = 0.3048;

/** Ticks at round levels, figures at every fifth or so; on its own strip, so that no earth or ground line runs under it. */
function ruler(drawing: Drawing): readonly SceneNode[] {
  const { field, frame, strip, title } = drawing.layout;
  const { system, transform } = drawing;
  const unit = system === "metric" ? 1 : feet;
  const step = (steps.find((size) => size * unit * transform.mmPerMetre >= 3.2) ?? 100) * unit;
  const major = (steps.find((size) => size * unit * transform.mmPerMetre >= 14) ?? 100) * unit;
  const base = { part: null, space: "paper", layer: "frame" } as const;
  const top = field.y;
  const bottom = strip?.y ?? title.y;
  const nodes: SceneNode[] = [
    { ...base, key: "sheet ruler", shape: "line", points: rectangle(frame.x, frame.y, rulerWidth, bottom - frame.y), closed: true, stroke: "none", fill: "sheet", pen: "hair" },
    { ...base, key: "sheet ruler edge", shape: "line", points: [[frame.x, frame.y], [frame.x, bottom]], stroke: "ink", pen: "part" },
    { ...base, key: "sheet ruler unit", shape: "text", at: [frame.x + 2, frame.y + 4.6], text: `level, ${levelUnit(system)}`, anchor: "start", size: letters.small, weight: 400, fill: "soft" },
  ];
  const high = siteAt(transform, [0, top])[1];
  const low = siteAt(transform, [0, bottom])[1];
  const first = Math.ceil(low / step);
  const last = Math.floor(high / step);
  if (last - first > 400) return nodes;
  for (let k = first; k <= last; k++) {
    const level = k * step;
    const y = paperAt(drawing, [0, level])[1];
    const isMajor = Math.abs(level / major - Math.round(level / major)) < 1e-6;
    nodes.push({ ...base, key: `sheet tick ${k}`, shape: "line", points: [[frame.x, y], [frame.x + (isMajor ? 3.2 : 1.6), y]], stroke: isMajor ? "ink" : "soft", pen: "dimension" });
    if (!isMajor || y < frame.y + 8 || y > bottom - 3) continue;
    nodes.push({ ...base, key: `sheet tick word ${k}`, shape: "text", at: [frame.x + 4, y + 1.05], text: formatLevel(level, system), anchor: "start", size: letters.small, weight: 400, fill: "soft" });
  }
  return nodes;
}
