/** A dimension line with its strokes, helping lines and figure (ISO 129), as nodes. */
import type { PartId } from "../../hydraulics/index.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import type { Mm } from "./obstacles.ts";
import { dimensionStroke } from "./symbols.ts";

export interface Dimension {
  readonly key: string;
  readonly part: PartId | null;
  readonly from: Mm;
  readonly to: Mm;
  readonly text: string;
  /** y of the middle of an upright one's figure, where that is not its own */
  readonly figureAt?: number;
  /** where the helping lines come from */
  readonly helps: readonly (readonly [Mm, Mm])[];
}

/** of its figures, mm */
export const size = letters.small;
/** mm between its line and the feet of its figure */
export const aside = 0.9;

export const mark = { space: "paper", layer: "marks" } as const;
export const helping = (key: string, part: PartId | null, a: Mm, b: Mm): SceneNode => ({
  ...mark,
  key,
  part,
  shape: "line",
  points: [a, b],
  stroke: "soft",
  pen: "hair",
});

export function drawDimension({ key, part, from, to, text, figureAt, helps }: Dimension): readonly SceneNode[] {
  const steep = Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0]);
  const middle: Mm = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const nodes: SceneNode[] = [
    { ...mark, key: `${key} line`, part, shape: "line", points: [from, to], stroke: "soft", pen: "dimension" },
    ...[from, to].map(
      (at, i): SceneNode => ({
        ...mark,
        key: `${key} stroke ${i}`,
        part,
        shape: "path",
        at,
        data: dimensionStroke,
        stroke: "ink",
        pen: "part",
      }),
    ),
    ...helps.map(([a, b], i) => helping(`${key} help ${i}`, part, a, b)),
  ];
  if (text !== "")
    nodes.push({
      ...mark,
      key: `${key} text`,
      part,
      shape: "text",
      at: steep ? [middle[0] - aside, figureAt ?? middle[1]] : [middle[0], middle[1] - aside],
      text,
      anchor: "middle",
      size,
      weight: 500,
      fill: "ink",
      ...(steep ? { turn: -90 } : {}),
    });
  return nodes;
}
