/** The marks of the hand as scene nodes: handles of what is chosen, the marquee. Never in the file. */
import type { PartId, Point, Section } from "../../hydraulics/index.ts";
import type { SceneNode } from "../scene/node.ts";
import { type Picture, piecesOf } from "../scene/picture.ts";
import { pxOfMm, pxPerMm } from "../sheet/transform.ts";
import type { HandShow } from "./gestures.ts";
import { handlesOf } from "./grip.ts";

const base = { part: null, layer: "frame" } as const;

export interface HandView {
  readonly section: Section;
  readonly selection: ReadonlySet<PartId>;
  /** the part that the keyboard has come to, chosen or not */
  readonly stop: PartId | null;
  readonly hand: HandShow;
  readonly picture: Picture;
}

export function handNodes(view: HandView): readonly SceneNode[] {
  return [...chosen(view), ...handles(view), ...marquee(view.hand)];
}

/** What is chosen, or would be met by a press, is drawn round once more in the colour of the focus: its own
 * nodes, without their fill. Where the keyboard is among parts that are not chosen, in dashes. */
function chosen({ selection, stop, hand, picture }: HandView): SceneNode[] {
  if (selection.size === 0 && !hand.hover && !stop) return [];
  const out: SceneNode[] = [];
  const besides = [hand.hover, stop].filter((id) => id !== null);
  const met = piecesOf(picture, besides.length > 0 ? [...selection, ...besides] : selection);
  for (const node of met.flatMap((piece) => piece.nodes)) {
    if (
      node.part === null ||
      !outlined.has(node.layer) ||
      node.shape === "text" ||
      // A note's little sheet is drawn in the softer ink.
      (node.stroke !== "ink" && node.stroke !== "soft") ||
      node.pen === "hair"
    )
      continue;
    const isChosen = selection.has(node.part);
    const isStop = !isChosen && node.part === stop;
    if (!isChosen && !isStop && node.part !== hand.hover) continue;
    const mark = {
      key: `chosen ${node.key}`,
      layer: "frame",
      part: null,
      stroke: "focus",
      fill: "none",
      pen: "part",
      opacity: isChosen || isStop ? 0.9 : 0.45,
    } as const;
    // A symbol has no dashes: there the keyboard's mark is fainter.
    if (node.shape !== "line") out.push({ ...node, ...mark, opacity: isStop ? 0.6 : mark.opacity });
    else {
      const { siteWidth: _, ...line } = node;
      out.push({ ...line, ...mark, ...(isStop ? { dash: [1.6, 1.1] } : {}) });
    }
  }
  return out;
}

const outlined: ReadonlySet<SceneNode["layer"]> = new Set(["bodies", "pipes", "devices"]);

function handles({ section, selection, picture }: HandView): SceneNode[] {
  if (selection.size !== 1) return [];
  const [id] = selection;
  const pixel = 1 / pxOfMm(picture.drawing.input.view.transform.mmPerMetre);
  return handlesOf(section, id as PartId, pixel).map((handle, i): SceneNode => {
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
