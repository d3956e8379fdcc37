import type { JSX } from "react";
import type { HandShow } from "../canvas/gestures.ts";
import { formatDimension, formatLevelUnit, type UnitSystem } from "../sheet/units.ts";
import type { Shown } from "./shown.ts";
import { deliveredOf, verdictOf } from "./verdict.ts";

export interface HandTagProps {
  readonly hand: HandShow;
  readonly shown: Shown;
  readonly inHand: boolean;
  readonly system: UnitSystem;
  readonly width: number;
}

/** Beside the hand while it drags: the level it sets, the flow and the verdict that follow from it. Before a pipe's first
 * end is set down nothing follows yet: the level alone. */
export function HandTag({ hand, shown, inHand, system, width }: HandTagProps): JSX.Element | null {
  const { figure } = hand;
  if (!hand.at || !(inHand || figure)) return null;
  const verdict = inHand ? verdictOf(shown.section, shown.latest, system) : null;
  const delivered = inHand ? deliveredOf(shown.running, system) : null;
  const left = Math.min(hand.at[0] + 18, width - 190);
  return (
    <div className="tag" aria-hidden="true" style={{ transform: `translate(${left}px, ${hand.at[1] + 16}px)` }}>
      {figure ? (
        <div className="level">
          {figure.kind === "level" ? formatLevelUnit(figure.value, system) : formatDimension(figure.value, system)}
        </div>
      ) : null}
      {delivered ? <div className="soft">delivers {delivered}</div> : null}
      {verdict && verdict.bar !== "none" ? <div className={verdict.role}>{verdict.words}</div> : null}
    </div>
  );
}
