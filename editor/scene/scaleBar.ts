/** The scale bar: true whatever the picture is scaled to later. */
import { foot } from "../../hydraulics/index.ts";
import type { Drawing } from "./drawing.ts";
import { rulerWidth } from "./layout.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import type { Mm, Obstacles } from "./obstacles.ts";
import { textWidth } from "./textWidth.ts";

const base = { part: null, space: "paper", layer: "marks" } as const;

export interface ScaleBar {
  readonly nodes: readonly SceneNode[];
  /** which of its corners it took; null where none was free */
  readonly place: number | null;
}

/** `held`: the corner it stands in while something moves. */
export function drawScaleBar(drawing: Drawing, obstacles: Obstacles, held?: number | null): ScaleBar {
  const { field } = drawing.layout;
  const unit = drawing.system === "metric" ? 1 : foot;
  const mm = drawing.transform.mmPerMetre * unit;
  const step = stepFor(mm);
  const width = step * mm;
  const text = `${String(Number((step * 2).toPrecision(3)))} ${drawing.system === "metric" ? "m" : "ft"}`;
  const long = 2 * width + 2 + textWidth(text, letters.small, 400);
  const floor = field.y + field.height - 4;
  const [first, last] = [field.x + rulerWidth + 3, field.x + field.width - 5 - long];
  const spots: readonly Mm[] = [
    [first, floor],
    [last, floor],
    [first, floor - 6],
    [last, floor - 6],
    [last, field.y + 6],
    [(first + last) / 2, floor],
  ];
  const free = spots.findIndex(([x, y]) => obstacles.isFree({ x: x - 1, y: y - 2, width: long + 2, height: 4 }));
  const place = held === undefined ? free : (held ?? -1);
  const spot = spots[place];
  if (!spot || field.height < 40) return { nodes: [], place: null };
  const [left, y] = spot;
  obstacles.addRect({ x: left - 1, y: y - 2, width: long + 2, height: 4 });
  const half = (key: string, from: number, fill: "ink" | "sheet"): SceneNode => ({
    ...base,
    key,
    shape: "line",
    closed: true,
    stroke: "ink",
    fill,
    pen: "hair",
    points: [
      [from, y - 0.6],
      [from + width, y - 0.6],
      [from + width, y + 0.6],
      [from, y + 0.6],
    ] as readonly Mm[],
  });
  const nodes: readonly SceneNode[] = [
    half("sheet scale a", left, "ink"),
    half("sheet scale b", left + width, "sheet"),
    {
      ...base,
      key: "sheet scale text",
      shape: "text",
      at: [left + 2 * width + 2, y + 1.1],
      text,
      anchor: "start",
      size: letters.small,
      weight: 400,
      fill: "soft",
    },
  ];
  return { nodes, place };
}

/** Half the bar: 1, 2.5 or 5 × 10ⁿ units, 8 to 20 mm of paper. */
function stepFor(mm: number): number {
  const wanted = 9 / mm;
  const ten = 10 ** Math.floor(Math.log10(wanted));
  return [1, 2.5, 5, 10].map((factor) => factor * ten).find((value) => value >= wanted) ?? 10 * ten;
}
