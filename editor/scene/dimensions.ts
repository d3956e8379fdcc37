/** Dimension lines (ISO 129 habits) with true distances: how high a vessel's water stands over the pond's, and how
 * far its wall is from the pond's edge. Few, and where they are not in the way. */
import { type Body, drawnWidth } from "../../hydraulics/index.ts";
import { formatDimension } from "../sheet/units.ts";
import { type Drawing, paperAt, waterLevel } from "./drawing.ts";
import type { LabelPlacer } from "./labels.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import { dimensionStroke } from "./symbols.ts";
import { textWidth } from "./textWidth.ts";

const mostShown = 4;

export function drawDimensions(drawing: Drawing, placer: LabelPlacer): readonly SceneNode[] {
  const bodies = drawing.parts.filter((part): part is Body => part.kind === "pond" || part.kind === "vessel");
  const pond = bodies.find((body) => body.kind === "pond");
  if (!pond) return [];
  const low = waterLevel(drawing, pond);
  const nodes: SceneNode[] = [];
  bodies.filter((body) => body.kind === "vessel").slice(0, mostShown).forEach((vessel) => {
    const high = waterLevel(drawing, vessel);
    if (low === null || high === null) return;
    const side = vessel.x >= pond.x ? vessel.x + drawnWidth(vessel) : vessel.x;
    const out = vessel.x >= pond.x ? 1 : -1;
    for (const away of [24, 18, 30, 36, 12]) {
      const x = paperAt(drawing, [side, 0])[0] + out * away;
      const top = paperAt(drawing, [0, Math.max(high, low)])[1];
      const bottom = paperAt(drawing, [0, Math.min(high, low)])[1];
      const text = formatDimension(Math.abs(high - low), drawing.system);
      const width = textWidth(text, letters.note, 500);
      if (bottom - top < width + 3) return;
      const box = { x: x - 4.6, y: top - 1.4, width: 6, height: bottom - top + 2.8 };
      if (!placer.obstacles.isFree(box)) continue;
      placer.obstacles.addRect(box);
      const base = { part: vessel.id, space: "paper", layer: "marks" } as const;
      const key = `${vessel.id} lift`;
      nodes.push(
        { ...base, key: `${key} line`, shape: "line", points: [[x, top], [x, bottom]], stroke: "ink", pen: "dimension" },
        { ...base, key: `${key} upper`, shape: "path", at: [x, top], data: dimensionStroke, stroke: "ink", pen: "dimension" },
        { ...base, key: `${key} lower`, shape: "path", at: [x, bottom], data: dimensionStroke, stroke: "ink", pen: "dimension" },
        { ...base, key: `${key} text`, shape: "text", at: [x - 1.2, (top + bottom) / 2], text, anchor: "middle", size: letters.note, weight: 500, fill: "ink", turn: -90 },
      );
      return;
    }
  });
  return nodes;
}
