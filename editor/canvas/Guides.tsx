/** What the hand snapped to: a faint line across the sheet, and its name. Elements of the page, not nodes of the canvas:
 * a line from edge to edge would have all of the sheet painted in each frame of a drag. */
import type { CSSProperties, JSX } from "react";
import { pxPerMm, type Rect } from "../sheet/transform.ts";
import type { HandShow } from "./gestures.ts";
import { guideLetters, guidePlaces } from "./handPlaces.ts";
import { type Brush, fontFamily } from "./paint.ts";

export interface GuidesProps {
  readonly hand: HandShow;
  readonly brush: Brush;
  /** px: where the section is; guides end there */
  readonly field: Rect;
  /** px: where the tag beside the hand is */
  readonly tag: Rect | null;
  /** px of the window */
  readonly width: number;
  readonly height: number;
}

export function Guides({ hand, brush, field, tag, width, height }: GuidesProps): JSX.Element | null {
  if (hand.guides.length === 0) return null;
  const { projection, colours, pens } = brush;
  const ink: CSSProperties = { position: "absolute", left: 0, top: 0, pointerEvents: "none", willChange: "transform" };
  const pen = `${pens.hair * pxPerMm}px dashed ${colours.focus}`;
  // On paper of its own, so that it is read over the drawing's words and lines.
  const word: CSSProperties = {
    ...ink,
    color: colours.focus,
    background: `color-mix(in srgb, ${colours.sheet} 90%, transparent)`,
    font: `${guideLetters.weight} ${guideLetters.size}px/12px ${fontFamily}`,
    whiteSpace: "nowrap",
    display: "grid",
    placeContent: "center",
  };
  const words = hand.guides.map(({ axis, value, name }) => {
    const [x, y] = projection.px("site", [value, value]);
    return { axis, line: axis === "z" ? y : x, name };
  });
  const places = guidePlaces(words, hand.at ?? [field.x, field.y], tag, field);
  return (
    <div style={{ ...placed(field), overflow: "hidden" }}>
      <div style={placed({ x: -field.x, y: -field.y, width, height })}>
        {words.map(({ axis, line: at, name }, i) => {
          const line: CSSProperties =
            axis === "z"
              ? { ...ink, width: "100%", borderTop: pen, transform: `translateY(${at}px)` }
              : { ...ink, height: "100%", borderLeft: pen, transform: `translateX(${at}px)` };
          const { x, y, width: wide, height: high } = places[i] as Rect;
          return (
            <div key={axis} className="guide">
              <div style={line} />
              <div style={{ ...word, width: wide, height: high, transform: `translate(${x}px, ${y}px)` }}>{name}</div>
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
