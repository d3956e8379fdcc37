/** The marks of the hand as scene nodes: handles of what is chosen, guides, the marquee. Never in the file. */
import type { PartId, Point, Section } from "../../hydraulics/index.ts";
import type { SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import { pxPerMm } from "../sheet/transform.ts";
import type { HandShow } from "./gestures.ts";
import { handlesOf } from "./grip.ts";
import type { Projection, Px } from "./projection.ts";

const base = { part: null, layer: "frame" } as const;

export interface HandView {
  readonly section: Section;
  readonly selection: ReadonlySet<PartId>;
  readonly hand: HandShow;
  readonly projection: Projection;
  readonly width: number;
  readonly height: number;
  readonly pieces: readonly Piece[];
}

export function handNodes(view: HandView): readonly SceneNode[] {
  return [...chosen(view), ...handles(view), ...guides(view), ...marquee(view.hand)];
}

/** What is chosen, or would be met by a press, is drawn round once more in the colour of the focus: its own
 * nodes, without their fill. */
function chosen({ selection, hand, pieces }: HandView): SceneNode[] {
  if (selection.size === 0 && !hand.hover) return [];
  const out: SceneNode[] = [];
  const met = pieces.filter(({ parts }) => parts.some((part) => selection.has(part) || part === hand.hover));
  for (const node of met.flatMap((piece) => piece.nodes)) {
    if (
      node.part === null ||
      !outlined.has(node.layer) ||
      node.shape === "text" ||
      node.stroke !== "ink" ||
      node.pen === "hair"
    )
      continue;
    const isChosen = selection.has(node.part);
    if (!isChosen && node.part !== hand.hover) continue;
    const mark = {
      key: `chosen ${node.key}`,
      layer: "frame",
      part: null,
      stroke: "focus",
      fill: "none",
      pen: "part",
      opacity: isChosen ? 0.9 : 0.45,
    } as const;
    if (node.shape !== "line") out.push({ ...node, ...mark });
    else {
      const { siteWidth: _, ...line } = node;
      out.push({ ...line, ...mark });
    }
  }
  return out;
}

const outlined: ReadonlySet<SceneNode["layer"]> = new Set(["bodies", "pipes", "devices"]);

function handles({ section, selection }: HandView): SceneNode[] {
  if (selection.size !== 1) return [];
  const [id] = selection;
  return handlesOf(section, id as PartId).map((handle, i): SceneNode => {
    const common = {
      ...base,
      key: `handle ${i}`,
      space: "site",
      at: handle.at,
      stroke: "focus",
      fill: "sheet",
      pen: "part",
    } as const;
    if (handle.look === "ring") return { ...common, shape: "circle", radius: 1.45 };
    if (handle.look === "dot") return { ...common, shape: "circle", radius: 1.05, fill: "focus" };
    // A bar with two arrow tips says which way the edge goes.
    return {
      ...common,
      shape: "path",
      data: "M-1.1 -0.5H1.1V0.5H-1.1ZM-0.7 -1 0 -1.9 0.7 -1ZM-0.7 1 0 1.9 0.7 1Z",
      turn: handle.look === "upDown" ? 0 : 90,
      pen: "hair",
      fill: "focus",
    };
  });
}

function guides({ hand, projection, width, height }: HandView): SceneNode[] {
  return hand.guides.flatMap((guide, i): SceneNode[] => {
    const mm = (px: number): number => px / pxPerMm;
    const [x, y] = projection.px("site", [guide.value, guide.value]);
    const across = guide.axis === "z";
    const points: Px[] = across
      ? [
          [0, mm(y)],
          [mm(width), mm(y)],
        ]
      : [
          [mm(x), 0],
          [mm(x), mm(height)],
        ];
    const at: Px = across
      ? [mm((hand.at?.[0] ?? 80) + 70), mm(y) - 0.8]
      : [mm(x) + 1, mm(Math.max((hand.at?.[1] ?? 100) - 60, 90))];
    return [
      {
        ...base,
        key: `guide ${i}`,
        space: "paper",
        shape: "line",
        points,
        stroke: "focus",
        pen: "hair",
        dash: [1.6, 1.2],
        opacity: 0.8,
      },
      {
        ...base,
        key: `guide word ${i}`,
        space: "paper",
        shape: "text",
        at,
        text: guide.name,
        anchor: "start",
        size: 3.05,
        weight: 500,
        fill: "focus",
      },
    ];
  });
}

function marquee(hand: HandShow): SceneNode[] {
  if (!hand.marquee) return [];
  const [[ax, ay], [bx, by]] = hand.marquee;
  const points = (
    [
      [ax, ay],
      [bx, ay],
      [bx, by],
      [ax, by],
    ] as const
  ).map(([x, y]): Point => [x / pxPerMm, y / pxPerMm]);
  return [
    {
      ...base,
      key: "marquee",
      space: "paper",
      shape: "line",
      points,
      closed: true,
      stroke: "focus",
      pen: "hair",
      dash: [1, 0.8],
    },
  ];
}
