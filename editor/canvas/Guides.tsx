/** What the hand snapped to: a faint line across the sheet, and its name. Elements of the page, not nodes of the canvas:
 * a line from edge to edge would have all of the sheet painted in each frame of a drag. */
import type { CSSProperties, JSX } from "react";
import { pxPerMm, type Rect } from "../sheet/transform.ts";
import type { HandShow } from "./gestures.ts";
import { type Brush, fontFamily } from "./paint.ts";

export interface GuidesProps {
  readonly hand: HandShow;
  readonly brush: Brush;
  /** px: where the section is; guides end there */
  readonly field: Rect;
  /** px of the window */
  readonly width: number;
  readonly height: number;
}

export function Guides({ hand, brush, field, width, height }: GuidesProps): JSX.Element | null {
  if (hand.guides.length === 0) return null;
  const { projection, colours, pens } = brush;
  const ink: CSSProperties = { position: "absolute", left: 0, top: 0, pointerEvents: "none", willChange: "transform" };
  const pen = `${pens.hair * pxPerMm}px dashed ${colours.focus}`;
  const word: CSSProperties = {
    ...ink,
    color: colours.focus,
    font: `500 ${3.05 * pxPerMm}px/1 ${fontFamily}`,
    whiteSpace: "nowrap",
  };
  return (
    <div style={{ ...placed(field), overflow: "hidden" }}>
      <div style={placed({ x: -field.x, y: -field.y, width, height })}>
        {hand.guides.map((guide) => {
          const [x, y] = projection.px("site", [guide.value, guide.value]);
          const across = guide.axis === "z";
          const [left, top] = across
            ? [`${(hand.at?.[0] ?? 300) + 265}px`, y - 15]
            : [`${x + 4}px`, Math.max((hand.at?.[1] ?? 380) - 227, 340)];
          const line: CSSProperties = across
            ? { ...ink, width: "100%", borderTop: pen, transform: `translateY(${y}px)` }
            : { ...ink, height: "100%", borderLeft: pen, transform: `translateX(${x}px)` };
          return (
            <div key={guide.axis} className="guide">
              <div style={line} />
              {/* Whole, also where the hand is near the right edge: a percentage is of the words' own width. */}
              <div style={{ ...word, transform: `translate(min(${left}, 100vw - 100% - 24px), ${top}px)` }}>
                {guide.name}
              </div>
            </div>
          );
        })}
      </div>
    </div>
  );
}

const placed = ({ x, y, width, height }: Rect): CSSProperties => ({
  position: "absolute",
  pointerEvents: "none",
  left: x,
  top: y,
  width,
  height,
});
