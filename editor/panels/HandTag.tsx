import type { JSX } from "react";
import type { HandShow } from "../canvas/gestures.ts";
import type { TagLine } from "../canvas/handPlaces.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatDimension, formatLevelUnit, type UnitSystem } from "../sheet/units.ts";
import type { Shown } from "./shown.ts";
import { deliveredOf, verdictOf } from "./verdict.ts";

export interface HandTagProps {
  readonly lines: readonly TagWords[];
  readonly place: Rect;
}

interface TagWords extends TagLine {
  /** as sheet.css has it */
  readonly className: string;
}

/** Beside the hand while it drags: the level it sets, the flow and the verdict that follow from it. */
export function HandTag({ lines, place }: HandTagProps): JSX.Element {
  return (
    <div className="tag" aria-hidden="true" style={{ transform: `translate(${place.x}px, ${place.y}px)` }}>
      {lines.map(({ text, className }) => (
        <div key={className} className={className}>
          {text}
        </div>
      ))}
    </div>
  );
}

/** What it says; nothing while the hand is not busy. Before a pipe's first end is set down nothing follows yet: the level
 * alone. */
export function tagLines(hand: HandShow, shown: Shown, inHand: boolean, system: UnitSystem): readonly TagWords[] {
  const { figure } = hand;
  if (!hand.at) return [];
  const lines: TagWords[] = [];
  if (figure) {
    const text =
      figure.kind === "level" ? formatLevelUnit(figure.value, system) : formatDimension(figure.value, system);
    lines.push({ text, size: 15, weight: 600, className: "level" });
  }
  const delivered = inHand ? deliveredOf(shown.running, system) : null;
  if (delivered) lines.push({ text: `delivers ${delivered}`, size: 13, weight: 400, className: "soft" });
  const verdict = inHand ? verdictOf(shown.section, shown.latest, system) : null;
  if (verdict && verdict.bar !== "none")
    lines.push({ text: verdict.words, size: 13, weight: 400, className: verdict.role });
  return lines;
}
