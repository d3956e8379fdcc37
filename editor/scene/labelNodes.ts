/** A label at its place as nodes: backing, leader with its dot or a level's mark, number, words. */
import type { Rect } from "../sheet/transform.ts";
import { corners } from "./ink.ts";
import { apartUsually, grown, levelMarkWidth, pitch } from "./labelBox.ts";
import type { LabelLine, LabelRequest } from "./labelRequest.ts";
import type { Role, SceneNode } from "./node.ts";
import type { Mm } from "./obstacles.ts";
import { levelTriangle } from "./symbols.ts";
import { textWidth } from "./textWidth.ts";

export interface LabelInk {
  readonly lines: readonly LabelLine[];
  readonly box: Rect;
  readonly leader: readonly Mm[];
  readonly backing: Role | undefined;
}

export function labelNodes(request: LabelRequest, { lines, box, leader, backing }: LabelInk): readonly SceneNode[] {
  const base = { part: request.part, space: "paper", layer: "labels" } as const;
  const nodes: SceneNode[] = [];
  if (backing)
    nodes.push({
      ...base,
      key: `${request.key} backing`,
      shape: "line",
      points: corners(grown(box, 0.5)),
      closed: true,
      stroke: "none",
      fill: backing,
      pen: "hair",
      opacity: 0.85,
    });
  if (leader.length > 1)
    nodes.push({
      ...base,
      key: `${request.key} leader`,
      shape: "line",
      points: leader,
      stroke: request.level ? "ink" : "soft",
      pen: request.level ? "dimension" : "hair",
    });
  if (!request.level && leader.length > 1)
    nodes.push({
      ...base,
      key: `${request.key} dot`,
      shape: "circle",
      at: leader[0] as Mm,
      radius: 0.45,
      stroke: "none",
      fill: "soft",
      pen: "hair",
    });
  let x = box.x;
  const first = lines[0]?.size ?? 0;
  if (request.level) {
    const foot = leader.at(-1)?.[1] ?? box.y + box.height;
    nodes.push({
      ...base,
      key: `${request.key} mark`,
      shape: "path",
      at: [box.x + 1.5, foot],
      data: levelTriangle,
      stroke: "ink",
      fill: "sheet",
      pen: "dimension",
    });
    x += levelMarkWidth;
  }
  if (request.number !== undefined) {
    const at: Mm = [x + 1.9, box.y + 0.36 * first];
    const text = String(request.number);
    nodes.push({
      ...base,
      key: `${request.key} ring`,
      shape: "circle",
      at,
      radius: 2,
      stroke: "ink",
      fill: "sheet",
      pen: "dimension",
    });
    nodes.push({
      ...base,
      key: `${request.key} number`,
      shape: "text",
      at: [at[0], at[1] + 0.95],
      text,
      anchor: "middle",
      size: 2.7,
      weight: 500,
      fill: "ink",
    });
    x += 4.6;
  }
  let y = box.y;
  lines.forEach((line, i) => {
    y += i === 0 ? 0.72 * line.size : line.size * pitch;
    let left = x;
    line.runs.forEach((run, j) => {
      nodes.push({
        ...base,
        key: `${request.key} ${i}.${j}`,
        shape: "text",
        at: [left, y],
        text: run.text,
        anchor: "start",
        size: line.size,
        weight: run.weight,
        fill: run.fill,
      });
      left += textWidth(run.text, line.size, run.weight) + (line.apart ?? apartUsually);
    });
  });
  return nodes;
}
